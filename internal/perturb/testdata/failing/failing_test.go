package failing

import "testing"

func TestReference(t *testing.T) {
	if half(2) != 2 {
		t.Error("a half is not the whole")
	}
}
