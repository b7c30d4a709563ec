package main

import (
	"bytes"
	_ "embed"
	"html/template"
	"os"

	"example.com/hydronics/internal/job"
)

//go:embed page.html
var pageText string

var page = template.Must(template.New("page").Parse(pageText))

// writeHTML writes the sheet as one page that needs nothing from elsewhere.
func writeHTML(name string, j *job.Job, s *job.Sheet) error {
	drawing, err := job.Draw(j, s)
	if err != nil {
		return err
	}
	drawn, err := figures(drawing)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := page.Execute(&b, struct {
		*document
		Figures []figure
	}{documentOf(s), drawn}); err != nil {
		return err
	}
	return os.WriteFile(name, b.Bytes(), 0o644)
}
