package job

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics"
)

// checkIDs holds that every finding has an id of its own, and that its rule was
// given one.
func checkIDs(t *testing.T, s *Sheet) {
	t.Helper()
	seen := map[string]bool{}
	for i := range s.Findings {
		f := &s.Findings[i]
		assert.False(t, seen[f.ID], "twice: %s", f.ID)
		assert.NotContains(t, f.ID, unnamed, "give this rule an id in identity.go: %s", f.Rule)
		assert.Regexp(t, `^[a-z0-9]+(-[a-z0-9]+)*(/[\p{L}\p{Nd}]+(-[\p{L}\p{Nd}]+)*)+$`, f.ID)
		seen[f.ID] = true
	}
}

// installations are the jobs beside the program, as they stand, in every
// jurisdiction, and with what most of them lack.
func installations(t *testing.T) map[string]*Job {
	t.Helper()
	files, err := filepath.Glob("../../examples/dwelling/jobs/*.json")
	require.NoError(t, err)
	all := map[string]*Job{"demo": load(t, "demo.json")}
	for _, f := range files {
		all[filepath.Base(f)] = load(t, "jobs/"+filepath.Base(f))
	}
	for code := range jurisdictions {
		for _, name := range []string{"demo.json", "jobs/faulty.json"} {
			j := load(t, name)
			j.Jurisdiction = code
			j.Unit.InletLeast = hydronics.Bar
			all[code+" "+name] = j
			bare := clone(j)
			bare.Cylinder.Potable.Reducer = math.NaN()
			bare.Cylinder.ColdFeed = []string{"pressure reducer", "strainer", "non-return valve", "relief valve", "drain cock", "shut-off valve", "cold branch"}
			bare.Cylinder.Content, bare.Cylinder.Demand.Profile = 9*hydronics.Litre, ""
			bare.Cylinder.Tundish = nil
			bare.Cylinder.OpenEnd = &OpenEnd{Outlet: 0.02, Bore: 0.02, End: 0.1, AirGap: 0.04, OwnPipe: true, Clear: true}
			bare.Cylinder.Funnel = &Funnel{OutletDN: 20, DN: 20, Length: 1, Bends: 1, AirGap: 0.03, DrainDN: 40}
			bare.Relief.Certificate, bare.Relief.Between = nil, nil
			bare.Site.Wind = 0
			dropDevices(bare, drainThermostatic)
			all[code+" bare "+name] = bare
			none := clone(bare)
			none.Cylinder.ColdFeed = []string{"shut-off valve", "relief valve"}
			none.Cylinder.Potable.Set = none.Site.Mains
			none.Distribution.Highest = 60
			if code != "IT" && code != "ES" { // their formulas for the expansion are for water
				none.Liquid = Filling{Kind: "ethylene glycol", Mass: 0.3, Volume: math.NaN(), FillingWater: 10, Coldest: 5, Hottest: 70}
			}
			all[code+" none "+name] = none
		}
	}
	long := load(t, "demo.json")
	long.Cylinder.Tundish.Length = 90
	all["long discharge"] = long
	return all
}

func TestEveryRequirementHasAnIDOfItsOwn(t *testing.T) {
	known := nights{}
	seen := map[string]bool{}
	for name, j := range installations(t) {
		s, err := assess(j, known)
		require.NoError(t, err, name)
		checkIDs(t, s)
		for i := range s.Findings {
			seen[s.Findings[i].Rule] = true
		}
	}
	assert.Len(t, identities, len(requirements), "a rule stands in the table twice")
	source := sources(t)
	for rule := range identities {
		assert.True(t, seen[rule] || strings.Contains(source, `"`+rule+`"`), "no package says this any more: %s", rule)
	}
}

// The table knows every rule that a package states in so many words.
func TestTheTableOfIDsIsComplete(t *testing.T) {
	elsewhere := []string{ // judged beside the parts, or of several relief valves
		"no automatic top-up from the mains", "relief valve discharges into a container",
		"no more valves share the duty than the rules allow", "the smallest valve has its share of the capacity",
	}
	stated := regexp.MustCompile(`(?:\bRule:\s*|\.Statement\(|\.OnSite\(|\b(?:judge|most|in|share|volume)\()"([^"]+)"`).FindAllStringSubmatch(sources(t), -1)
	require.Greater(t, len(stated), 80)
	for _, m := range stated {
		_, known := identities[m[1]]
		for rule := range identities {
			known = known || strings.HasSuffix(m[1], " ") && strings.HasPrefix(rule, m[1]) // and a name of the job
		}
		for _, b := range beginnings {
			known = known || m[1] == b.words
		}
		assert.True(t, known || slices.Contains(elsewhere, m[1]), "no id in identity.go for: %s", m[1])
	}
}

// sources are the packages that judge what a job file describes.
func sources(t *testing.T) string {
	t.Helper()
	var all strings.Builder
	for _, dir := range []string{".", "../../frost", "../../dhw", "../../expansion", "../../pipe"} {
		files, err := filepath.Glob(dir + "/*.go")
		require.NoError(t, err)
		for _, f := range files {
			switch strings.TrimPrefix(f, "../../") {
			case "identity.go", "dhw/deadleg.go", "dhw/pressure.go", "dhw/circulation.go", "dhw/flushing.go", "expansion/potable.go", "expansion/rules.go":
				continue
			}
			if !strings.HasSuffix(f, "_test.go") {
				text, err := os.ReadFile(f)
				require.NoError(t, err)
				all.Write(text)
			}
		}
	}
	return all.String()
}

func TestKeyOfAName(t *testing.T) {
	for name, want := range map[string]string{
		"supply, unit to diverting valve": "supply-unit-to-diverting-valve",
		"  Küche (Süd) 2":                 "küche-süd-2",
		"---":                             "none",
		"":                                "none",
		"客厅":                              "客厅",
	} {
		assert.Equal(t, want, string(appendKey([]byte("part/"), name))[len("part/"):])
	}
}

// What identify relies on where it does not look through the sheet: an id of the
// table is never another one with more behind it.
func TestNoIDBeginsAnother(t *testing.T) {
	ids := []string{unnamed}
	for _, r := range requirements {
		ids = append(ids, strings.TrimSuffix(r.id, "*"))
	}
	for _, b := range beginnings {
		ids = append(ids, strings.TrimSuffix(b.id, "*"))
	}
	for _, a := range ids {
		for _, b := range ids {
			assert.False(t, strings.HasPrefix(a, strings.TrimSuffix(b, "/")+"/") && a != b, "%s begins %s", b, a)
		}
	}
}

// Words, values, limits and order leave an id alone.
func TestIDsOutlastChanges(t *testing.T) {
	ids := func(j *Job) []string {
		s := sheetOf(t, j)
		var all []string
		for i := range s.Findings {
			all = append(all, s.Findings[i].ID)
		}
		slices.Sort(all)
		return all
	}
	before := ids(load(t, "demo.json"))
	j := load(t, "demo.json")
	j.Title, j.Site.Coldest, j.Unit.LeastFlow, j.Unit.Output = "another", -14, 2*j.Unit.LeastFlow, 0.5*j.Unit.Output
	j.Cylinder.Stored, j.Cylinder.Demand.Profile = 55, "M"
	j.Relief.Between = []string{"isolating valve"}
	c := j.Distribution.Circuits
	c[0].Kv, c[3].Barrier = 0.5*c[0].Kv, false
	slices.Reverse(c)
	assert.Equal(t, before, ids(j))
}
