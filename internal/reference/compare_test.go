package reference

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/internal/calculation"
	"example.com/hydronics/internal/unit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHalfDigit(t *testing.T) {
	for text, want := range map[string]float64{
		"12.3": 0.05, "0.0640": 5e-5, "0.064": 5e-4, "600": 0.5, "-1.50": 5e-3,
		"1.23e-5": 5e-8, "1E3": 500, "2e+2": 50, "0.00100215168": 5e-12,
	} {
		assert.InEpsilon(t, want, halfDigit(text), 1e-12, text)
	}
}

// double is a calculation whose results anyone can check by eye.
var double = calculation.Calculation{
	Name: "test/double",
	Inputs: []calculation.Column{
		{Name: "length", Kind: unit.Length}, {Name: "word", Kind: unit.Text, Optional: true},
		{Name: "extra", Kind: unit.Number, Optional: true},
	},
	Outputs: []calculation.Column{{Name: "twice", Kind: unit.Length}, {Name: "echo", Kind: unit.Text}},
	Covers:  []string{"test.Double"},
	Row: func(in calculation.Row) (calculation.Row, error) {
		v := in.Num("length")
		if err := hydronics.Within("test.Double", "length", "m", v, 0, 100, "test"); err != nil {
			return nil, err
		}
		if v == 99 {
			return calculation.Row{"twice": math.NaN()}, nil
		}
		return calculation.Row{"twice": 2 * v, "echo": in.Text("word")}, nil
	},
}

// sum adds the lengths of a case and gives every row the total.
var sum = calculation.Calculation{
	Name:    "test/sum",
	Inputs:  []calculation.Column{{Name: "length", Kind: unit.Length}},
	Outputs: []calculation.Column{{Name: "total", Kind: unit.Length}},
	Covers:  []string{"test.Sum"},
	Case: func(in []calculation.Row) ([]calculation.Row, error) {
		total := 0.0
		for _, r := range in {
			total += r.Num("length")
		}
		out := make([]calculation.Row, len(in))
		for i := range out {
			out[i] = calculation.Row{"total": total}
		}
		return out, nil
	},
}

const head = `# title: a test
# source: nobody
# locator: page 1
# provenance: original
# seen: here
`

func parse(t *testing.T, body string) *Table {
	t.Helper()
	table, err := Parse("data/test/x.csv", []byte(head+body), []calculation.Calculation{double, sum})
	require.NoError(t, err)
	return table
}

func TestToleranceIsComputed(t *testing.T) {
	// 2 × 1.5 m printed as 3.04: half a digit is 0.005; the input 1.5 may be
	// anything from 1.45 to 1.55, which moves the result by 0.1.
	rounded := parse(t, "# calculation: test/double\n# check: twice_m print\nlength_m,twice_m\n1.5,3.04\n")
	v := rounded.Compare().Values[0]
	assert.InDelta(t, -0.04, v.Deviation, 1e-12)
	assert.InDelta(t, 0.105, v.Tolerance, 1e-12)
	assert.InDelta(t, 0.1, v.InputShare, 1e-12)
	assert.True(t, v.OK)
	assert.Equal(t, 9, v.Line)

	exact := parse(t, "# calculation: test/double\n# exact: length_m\n# check: twice_m print\nlength_m,twice_m\n1.5,3.04\n")
	v = exact.Compare().Values[0]
	assert.InDelta(t, 0.005, v.Tolerance, 1e-12)
	assert.False(t, v.OK)

	wider := parse(t, "# calculation: test/double\n# exact: length_m\n# check: twice_mm rel 0.02\n# why: page 7\nlength_m,twice_mm\n1.5,3040\n")
	v = wider.Compare().Values[0]
	assert.InDelta(t, 0.5+0.02*3040, v.Tolerance, 1e-9)
	assert.True(t, v.OK)
}

func TestCasesAreEvaluatedTogether(t *testing.T) {
	table := parse(t, "# calculation: test/sum\n# case: net\n# check: total_m print\nnet,length_m,total_m\na,1,3\na,2,3\nb,5,5\n")
	values := table.Compare().Values
	require.Len(t, values, 3)
	for _, v := range values {
		assert.True(t, v.OK)
		assert.Zero(t, v.Deviation)
	}
	assert.InDelta(t, 0.5+0.5+0.5, values[0].Tolerance, 1e-12, "both rounded inputs of case a count")
	assert.InDelta(t, 0.5+0.5, values[2].Tolerance, 1e-12)
}

func TestNaNNeverPasses(t *testing.T) {
	table := parse(t, "# calculation: test/double\n# exact: length_m\n# check: twice_m abs 1000\n# why: no reason\nlength_m,twice_m\n99,198\n")
	assert.False(t, table.Compare().Values[0].OK)
}

func TestExpectedFailure(t *testing.T) {
	table := parse(t, "# calculation: test/double\n# check: twice_m print\nlength_m,twice_m,expect\n-1,,out of range\n1,,out of range\n")
	values := table.Compare().Values
	assert.True(t, values[0].OK)
	assert.False(t, values[1].OK, "a value where a failure is expected")
}

func TestWhatGates(t *testing.T) {
	table := parse(t, "# calculation: test/double\n# check: twice_m print\nlength_m,twice_m,provenance,disputed\n"+
		"1,9,,\n1,9,from memory,\n1,9,common practice,\n1,9,,the other book says 2\n")
	var gates []bool
	for _, v := range table.Compare().Values {
		assert.False(t, v.OK)
		gates = append(gates, v.Gates)
	}
	assert.Equal(t, []bool{true, false, false, false}, gates)
}

func TestMeasuredDataAreJudgedAsAWhole(t *testing.T) {
	body := "# calculation: test/double\n# exact: length_m\n# check: twice_m mean 0.01 rms 0.06\n# why: band of page 3\nlength_m,twice_m\n1,2.1\n1,1.9\n"
	values := parse(t, body).Compare().Values
	require.Len(t, values, 3)
	assert.False(t, values[0].Gates)
	whole := values[2]
	assert.True(t, whole.Gates)
	assert.True(t, whole.OK, whole.Got)
	values = parse(t, strings.Replace(body, "rms 0.06", "rms 0.04", 1)).Compare().Values
	assert.False(t, values[2].OK, "too much scatter")
	values = parse(t, strings.Replace(body, "1,1.9", "1,2.1", 1)).Compare().Values
	assert.False(t, values[2].OK, "biased")
}

func TestLintRefuses(t *testing.T) {
	for name, c := range map[string]struct{ body, says string }{
		"unknown key":           {"# colour: red\n", `unknown header key "colour"`},
		"no calculation":        {"length_m,twice_m\n1,2\n", `header key "calculation"`},
		"unknown calculation":   {"# calculation: test/triple\nlength_m\n1\n", `no calculation "test/triple"`},
		"unknown column":        {"# calculation: test/double\n# check: twice_m print\nlength_m,width_m,twice_m\n1,1,2\n", `column "width_m" is no input`},
		"wrong unit":            {"# calculation: test/double\n# check: twice_m print\nlength_kg,twice_m\n1,2\n", `column "length_kg" is no input`},
		"output without check":  {"# calculation: test/double\n# check: echo exact\nlength_m,twice_m,echo\n1,2,x\n", `output column "twice_m" has no check`},
		"check without column":  {"# calculation: test/double\n# check: twice_m print\nlength_m\n1\n", `check "twice_m" has no column`},
		"limit without why":     {"# calculation: test/double\n# check: twice_m rel 0.1\nlength_m,twice_m\n1,2\n", "needs why"},
		"unknown rule":          {"# calculation: test/double\n# check: twice_m about\nlength_m,twice_m\n1,2\n", `rule "about"`},
		"missing input":         {"# calculation: test/double\n# check: twice_m print\ntwice_m\n2\n", `input "length" of test/double is missing`},
		"no number":             {"# calculation: test/double\n# check: twice_m print\nlength_m,twice_m\none,2\n", `line 9, length: "one" is not a decimal number`},
		"infinite":              {"# calculation: test/double\n# check: twice_m print\nlength_m,twice_m\nInf,2\n", "is not a decimal number"},
		"hexadecimal":           {"# calculation: test/double\n# check: twice_m print\nlength_m,twice_m\n0x1p1,2\n", "is not a decimal number"},
		"exact without column":  {"# calculation: test/double\n# exact: width_m\n# check: twice_m print\nlength_m,twice_m\n1,2\n", `exact "width_m" has no column`},
		"unknown expectation":   {"# calculation: test/double\n# check: twice_m print\nlength_m,twice_m,expect\n1,2,trouble\n", `"trouble" is neither`},
		"unknown provenance":    {"# calculation: test/double\n# check: twice_m print\nlength_m,twice_m,provenance\n1,2,hearsay\n", `"hearsay" is none`},
		"nothing checked":       {"# calculation: test/double\nlength_m\n1\n", "nothing is checked"},
		"given and column":      {"# calculation: test/double\n# given: length_m 3\n# check: twice_m print\nlength_m,twice_m\n1,2\n", "is given and has a column"},
		"no rows":               {"# calculation: test/double\n# check: twice_m print\nlength_m,twice_m\n", "no rows"},
		"column twice":          {"# calculation: test/double\n# check: twice_m print\nlength_m,length_m,twice_m\n1,1,2\n", `column "length_m" stands twice`},
		"ragged":                {"# calculation: test/double\n# check: twice_m print\nlength_m,twice_m\n1,2,3\n", "wrong number of fields"},
		"words checked loosely": {"# calculation: test/double\n# check: echo print\nlength_m,echo\n1,x\n", "words are checked with exact"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Parse("data/test/x.csv", []byte(head+c.body), []calculation.Calculation{double, sum})
			assert.ErrorContains(t, err, c.says)
		})
	}
}

// The gate bites: in every table of the project each published number moved by
// three tolerances makes the comparison fail.
func TestMovedValuesFail(t *testing.T) {
	tables, err := Load(Data(), ".", calculation.All())
	require.NoError(t, err)
	for _, table := range tables {
		t.Run(table.File, func(t *testing.T) {
			before := table.Compare()
			moved := *table
			moved.rows = make([][]string, len(table.rows))
			for i, row := range table.rows {
				moved.rows[i] = append([]string(nil), row...)
			}
			shifted := map[string]bool{}
			for _, v := range before.Values {
				i := indexOf(table.lines, v.Line)
				for _, c := range table.checks {
					if v.Gates && v.OK && c.header == v.Column && !c.column.Kind.Text() && i >= 0 {
						want, _ := number(v.Want)
						by := 3 * v.Tolerance
						if c.mode == discrete {
							by = math.Max(1, math.Abs(want)) / 100
						}
						moved.rows[i][c.index] = strconv.FormatFloat(want+by, 'f', -1, 64)
						shifted[fmt.Sprint(v.Line, v.Column)] = true
					}
				}
			}
			for _, v := range moved.Compare().Values {
				if shifted[fmt.Sprint(v.Line, v.Column)] && v.OK {
					t.Errorf("line %d, %s: moved to %s and still passes (computed %s, tolerance %g)", v.Line, v.Column, v.Want, v.Got, v.Tolerance)
				}
			}
		})
	}
}

func indexOf(lines []int, line int) int {
	for i, l := range lines {
		if l == line {
			return i
		}
	}
	return -1
}

func TestCalculationsAreWellFormed(t *testing.T) {
	names := map[string]bool{}
	for _, c := range calculation.All() {
		assert.False(t, names[c.Name], "%s stands twice", c.Name)
		names[c.Name] = true
		assert.NotEmpty(t, c.Doc, c.Name)
		assert.NotEmpty(t, c.Covers, c.Name)
		assert.True(t, (c.Row == nil) != (c.Case == nil), "%s: exactly one of Row and Case", c.Name)
		columns := map[string]bool{}
		for _, list := range [][]calculation.Column{c.Inputs, c.Outputs} {
			for _, col := range list {
				assert.False(t, columns[col.Name], "%s: column %s stands twice", c.Name, col.Name)
				columns[col.Name] = true
			}
		}
	}
}

func TestReportCountsFailures(t *testing.T) {
	table := parse(t, "# calculation: test/double\n# exact: length_m\n# check: twice_m print\nlength_m,twice_m\n1,2\n2,5\n")
	r := NewReport([]*Table{table}, []calculation.Calculation{double, sum}, nil)
	assert.Equal(t, 1, r.Failed())
	assert.Equal(t, 1, r.Covered)
	assert.Equal(t, 2, r.Exported)
	assert.Equal(t, []Uncovered{{Name: "test.Sum"}}, r.Uncovered)
	var b strings.Builder
	require.NoError(t, r.WriteMarkdown(&b))
	assert.Contains(t, b.String(), "1 FAILED")
	assert.Contains(t, b.String(), "printed 5, computed 4")
	require.Error(t, r.WriteMarkdown(broken{}))
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func FuzzParse(f *testing.F) {
	f.Add([]byte(head + "# calculation: test/double\n# check: twice_m print\nlength_m,twice_m\n1,2\n"))
	f.Add([]byte(head + "# calculation: test/sum\n# case: net\n# check: total_m rel 0.1\n# why: x\nnet,length_m,total_m\na,1,3\na,2,3\n"))
	f.Add([]byte("# given: length_m\n"))
	f.Fuzz(func(t *testing.T, content []byte) {
		table, err := Parse("data/test/x.csv", content, []calculation.Calculation{double, sum})
		if (table == nil) != (err != nil) {
			t.Fatalf("table %v with error %v", table, err)
		}
		if table != nil {
			table.Compare()
		}
	})
}
