package network_test

import (
	"testing"

	"example.com/hydronics/internal/reference/referencetest"
)

func TestReferenceTables(t *testing.T) { referencetest.Verify(t, "network") }
