package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func pageOf(t *testing.T, args ...string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "sheet.html")
	status, _, report := output(t, append([]string{"-html", name}, args...)...)
	require.Less(t, status, unusable, report)
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	return string(data)
}

// The page needs nothing from elsewhere and says everything in words as well.
func TestPageStandsAlone(t *testing.T) {
	html := pageOf(t)
	assert.NotRegexp(t, regexp.MustCompile(`(?i)<(script|link|iframe|img|object)\b`), html)
	assert.NotRegexp(t, regexp.MustCompile(`(?i)(src|href)\s*=|url\(|@import`), strings.ReplaceAll(html, `xlink:href`, ""))
	assert.Equal(t, strings.Count(html, "<svg"), strings.Count(html, `role="img" aria-label="`)-strings.Count(html, `class="box" role="img"`))
	assert.GreaterOrEqual(t, strings.Count(html, "<svg"), 4)
	assert.Equal(t, strings.Count(html, "<figure>"), strings.Count(html, "<figcaption>"))
	assert.Contains(t, html, "RELEASES NOTHING")
	assert.Contains(t, html, `lang="en"`)
	assert.Equal(t, 1, strings.Count(html, "<h1"))
	assert.NotContains(t, html, "NaN")
}

// Every mixing group has its section and its figure.
func TestPageOfMixingGroups(t *testing.T) {
	html := pageOf(t, filepath.Join("jobs", "mixed-floor-radiators.json"))
	assert.Contains(t, html, "Circuits behind mixing valves")
	assert.Equal(t, 1, strings.Count(html, "<figcaption>Circulator of the mixing group floors"))
	assert.Equal(t, strings.Count(pageOf(t), "<svg")+1, strings.Count(html, "<svg"))
}

// What the user writes into a job file is text on the page and nothing else.
func TestPageEscapes(t *testing.T) {
	name := filepath.Join(t.TempDir(), "job.json")
	text := strings.Replace(string(demo), "House above the mill", `<script>alert(1)</script>`, 1)
	text = strings.Replace(text, "supply, unit to diverting valve", `\"><b onload=alert(2)>`, 1)
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	html := pageOf(t, name)
	assert.NotContains(t, html, "<script>")
	assert.NotContains(t, html, "<b onload")
}

// measure runs in the browser and leaves what it finds in the title.
const measure = `<script>
window.onerror = (m) => { console.error(m) };
const svgs = [...document.querySelectorAll("figure svg")];
document.title = JSON.stringify({
  figures: svgs.filter(s => s.getBoundingClientRect().height > 50 && s.getAttribute("aria-label").length > 20).length,
  wide: [...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1).length,
  headings: document.querySelectorAll("h1, h2").length,
  blanks: document.querySelectorAll(".fill").length,
});
</script></body>`

// The page in a real browser: nothing to complain about, all figures there,
// nothing wider than A4.
func TestPageInBrowser(t *testing.T) {
	browser := chromium(t)
	dir := t.TempDir()
	name := filepath.Join(dir, "sheet.html")
	html := strings.Replace(pageOf(t), "</body>", measure, 1)
	require.NoError(t, os.WriteFile(name, []byte(html), 0o644))
	pdf := filepath.Join(dir, "sheet.pdf")
	const a4 = "794,1123" // at 96 dots per inch
	dom := browser(dir, "--window-size="+a4, "--dump-dom", "file://"+name)
	title := regexp.MustCompile(`(?s)<title>(.*?)</title>`).FindStringSubmatch(dom)
	require.NotNil(t, title)
	var seen struct{ Figures, Wide, Headings, Blanks int }
	require.NoError(t, json.Unmarshal([]byte(title[1]), &seen))
	assert.Equal(t, strings.Count(html, "<figure>"), seen.Figures)
	assert.GreaterOrEqual(t, seen.Figures, 4)
	assert.Zero(t, seen.Wide, "elements wider than A4")
	assert.Greater(t, seen.Headings, 10)
	assert.Greater(t, seen.Blanks, 10)

	browser(dir, "--print-to-pdf="+pdf, "--no-pdf-header-footer", "file://"+name)
	printed, err := os.ReadFile(pdf)
	require.NoError(t, err)
	boxes := regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`).FindAllSubmatch(printed, -1)
	require.NotEmpty(t, boxes)
	for _, b := range boxes {
		assert.Regexp(t, `^59[45]`, string(b[1]))
		assert.Regexp(t, `^84[12]`, string(b[2]))
	}
	assert.Less(t, len(boxes), 25, "pages")
}

// chromium returns a function that runs the browser without a window and returns
// what it writes. A message of the page's console fails the test.
func chromium(t *testing.T) func(dir string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("chromium is missing")
		}
		t.Skip("chromium is missing")
	}
	return func(dir string, args ...string) string {
		t.Helper()
		profile, err := os.MkdirTemp(dir, "profile")
		require.NoError(t, err)
		ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
		defer cancel()
		command := exec.CommandContext(ctx, path, append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
			"--disable-background-networking", "--disable-component-update", "--disable-sync", "--enable-logging=stderr", "--user-data-dir=" + profile}, args...)...)
		var out, report bytes.Buffer
		command.Stdout, command.Stderr = &out, &report
		require.NoError(t, command.Run(), report.String())
		for line := range strings.Lines(report.String()) {
			assert.NotContains(t, line, "CONSOLE", "the page's console")
		}
		return out.String()
	}
}
