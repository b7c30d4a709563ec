package pipe_test

import (
	"testing"

	"example.com/hydronics/internal/reference/referencetest"
)

func TestReference(t *testing.T) { referencetest.Verify(t, "pipe") }
