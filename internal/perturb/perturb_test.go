package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWhatIsNoticed(t *testing.T) {
	found, err := trial{folder: "testdata/sample", by: 1e-3, workers: 2}.perturb(func(*number) {})
	require.NoError(t, err)
	type told struct {
		role    role
		noticed notice
	}
	got := map[string]told{}
	for _, n := range found {
		got[n.text] = told{n.role(), n.noticed}
	}
	assert.Equal(t, map[string]told{
		"gravity = 9.81":         {coefficient, byTables},
		"Kilogram = 1e3":         {coefficient, byTests},
		"1.5":                    {entry, byNothing},
		"2.5":                    {entry, byTables},
		"1000":                   {limit, byTests},
		"gravity / 2":            {coefficient, byNothing},
		"0.7":                    {coefficient, byNothing},
		"float64(len(series)-1)": {coefficient, byNothing}, // an integer that becomes a factor
		"0.001":                  {coefficient, byNothing},
		"1":                      {coefficient, byTables},
	}, got)
}

func TestOneFile(t *testing.T) {
	found, err := trial{folder: "testdata/sample", file: "other.go", by: 1e-3, workers: 1}.perturb(func(*number) {})
	require.NoError(t, err)
	assert.Empty(t, found)
}

func TestNothingIsTriedWhenTestsFail(t *testing.T) {
	_, err := trial{folder: "testdata/failing", by: 1e-3, workers: 1}.perturb(func(*number) {})
	assert.ErrorContains(t, err, "before anything is changed")
}
