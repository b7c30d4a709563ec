package main

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestPictures(t *testing.T) {
	for _, c := range []struct {
		litres string
		file   string
		starts string
		want   int
		line   string
	}{
		{"60", "small.png", "\x89PNG", runsCold, "first at 08:"},
		{"80", "middle.svg", "<?xml", runsCold, "first at"},
		{"300", "large.pdf", "%PDF", staysHot, "never"},
	} {
		path := filepath.Join(t.TempDir(), c.file)
		args := []string{"-litres", c.litres, "-draw", path}
		if c.want == staysHot {
			args = append(args, "-on", "57", "-off", "60", "-nodes", "20") // a draw-off of 55 °C needs a hotter store
		}
		var out, errs bytes.Buffer
		if got := run(args, &out, &errs); got != c.want {
			t.Errorf("%v: status %d, want %d; %s%s", args, got, c.want, out.String(), errs.String())
		}
		content, err := os.ReadFile(path)
		if err != nil || !strings.HasPrefix(string(content), c.starts) {
			t.Errorf("%s: %v", c.file, err)
		}
		if !strings.Contains(out.String(), "runs cold           "+c.line) || !strings.Contains(out.String(), "scalds") {
			t.Errorf("%v: %s", args, out.String())
		}
		if c.starts == "\x89PNG" {
			if _, err := png.Decode(bytes.NewReader(content)); err != nil {
				t.Error(err)
			}
		}
	}
}

// Nothing is written into the current folder unless a file is named.
func TestNoPictureUnasked(t *testing.T) {
	t.Chdir(t.TempDir())
	var out, errs bytes.Buffer
	if got := run(nil, &out, &errs); got != runsCold || errs.Len() != 0 {
		t.Errorf("status %d, %s", got, errs.String())
	}
	if left, err := os.ReadDir("."); err != nil || len(left) != 0 {
		t.Errorf("left %v, %v", left, err)
	}
	if !strings.Contains(out.String(), "-draw day.png") {
		t.Errorf("does not say how to get the picture: %s", out.String())
	}
}

func TestRefusals(t *testing.T) {
	for _, args := range [][]string{
		{"-profile", "XXXL"}, {"-litres", "-1"}, {"-litres", "nan"}, {"-nodes", "0"}, {"-on", "60", "-off", "50"},
		{"-draw", "day.bmp"}, {"day.png"}, {"-draw", filepath.Join(t.TempDir(), "no", "such", "folder.png")}, {"-flag"},
	} {
		var out, errs bytes.Buffer
		if got := run(args, &out, &errs); got != unusable || errs.Len() == 0 || out.Len() != 0 {
			t.Errorf("%v: status %d, %q, %q", args, got, out.String(), errs.String())
		}
	}
}
