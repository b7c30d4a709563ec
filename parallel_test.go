package hydronics_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/dhw"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A case is a calculation with values that all goroutines share.
type shared struct {
	name string
	run  func() (any, error)
}

// Shared values serve many goroutines at once: every one of them gets what one
// alone gets, and the race detector sees nothing (go test -race).
func TestParallelUse(t *testing.T) {
	var all []shared
	for _, of := range []func(*testing.T) []shared{ofFluid, ofPipe, ofNetwork, ofExpansion, ofFrost, ofHotWater} {
		all = append(all, of(t)...)
	}
	want := make([]any, len(all))
	for i, c := range all {
		var err error
		want[i], err = c.run()
		require.NoError(t, err, c.name)
	}
	const goroutines = 6
	var wait sync.WaitGroup
	for g := range goroutines {
		wait.Go(func() {
			for k := range all {
				i := (k + g*len(all)/goroutines) % len(all) // each begins elsewhere
				// Printed with all their digits, for NaN is the value of what only the site can show.
				if got, err := all[i].run(); err != nil || fmt.Sprintf("%+v", want[i]) != fmt.Sprintf("%+v", got) {
					t.Errorf("%s: %v, %v; alone %v", all[i].name, got, err, want[i])
				}
			}
		})
	}
	wait.Wait()
}

// both keeps a result and its error together.
func both[T any](v T, err error) (any, error) { return v, err }

func ofFluid(t *testing.T) []shared {
	water, glycol := fluid.Water(), antifreeze(t)
	return []shared{
		{"fluid.Liquid.At, water", func() (any, error) { return both(water.At(40)) }},
		{"fluid.Liquid.At, glycol", func() (any, error) { return both(glycol.At(-5)) }},
		{"fluid.SaturationPressure", func() (any, error) { return both(fluid.SaturationPressure(90)) }},
		{"fluid.Solutes", func() (any, error) { return fluid.Solutes(), nil }},
	}
}

func antifreeze(t *testing.T) fluid.Liquid {
	l, err := fluid.PropyleneGlycol.ByMass(0.3)
	require.NoError(t, err)
	return l
}

func ofPipe(t *testing.T) []shared {
	p, err := antifreeze(t).At(35)
	require.NoError(t, err)
	catalogue := pipe.Catalogue()
	run := catalogue[0].Run(12)
	resistance, err := run.Prepare(p)
	require.NoError(t, err)
	parallel := pipe.InParallel{&resistance, &resistance}
	route := pipe.Route{{Z: 1}, {Z: 0.4, Outdoors: true}, {X: 5, Z: 0.5, Outdoors: true}, {X: 5, Z: 1.2, Outdoors: true}}
	return []shared{
		{"pipe.Catalogue", func() (any, error) { return pipe.Catalogue(), nil }},
		{"pipe.Search", func() (any, error) { return pipe.Search("22"), nil }},
		{"pipe.Run.Loss", func() (any, error) { return both(run.Loss(1e-4, p)) }},
		{"pipe.FlowAt", func() (any, error) { return both(pipe.FlowAt(&resistance, 5000)) }},
		{"pipe.InParallel.Split", func() (any, error) {
			_, flows, err := parallel.Split(1e-4)
			return flows, err
		}},
		{"pipe.Sizing.Select", func() (any, error) { return both(pipe.Sizing{Flow: 3e-4, Liquid: p}.Select(catalogue)) }},
		{"pipe.Route.HeldWater", func() (any, error) { return both(route.HeldWater(1)) }},
	}
}

// pumpedHouse is a pump with a non-return valve, two zones and a bypass.
func pumpedHouse(p fluid.Properties) network.Network {
	n := network.Network{Liquid: p}
	ret, supply := n.AddNode(network.Node{Fixed: true, Pressure: 1.2 * hydronics.Bar}), n.AddNode(network.Node{})
	n.AddBranch(network.Branch{From: ret, To: supply, Elements: []network.Element{
		network.Device{Kv: 5}, network.NonReturn{Kv: 12, Opening: 500},
		network.Pump{Speed: 1, Curve: []network.PumpPoint{{Head: 7, Power: 30}, {Flow: 0.6e-3, Head: 5.6, Power: 60}, {Flow: 1.4e-3, Head: 0.2, Power: 70}}}}})
	for _, length := range []float64{40, 70} {
		n.AddBranch(network.Branch{From: supply, To: ret, Elements: []network.Element{
			network.Run{Bore: 0.016, Length: length, Roughness: 7e-6}, network.Valve{Kvs: 1.6, Rangeability: 50, Position: 0.8}}})
	}
	n.AddBranch(network.Branch{From: supply, To: ret, Elements: []network.Element{network.Bypass{Set: 3e4, Slope: 1e7, Kvs: 4}}})
	return n
}

// A Network is shared, and so is a Solution. A System is a workspace: each
// goroutine prepares its own from the shared network.
func ofNetwork(t *testing.T) []shared {
	p, err := fluid.Water().At(35)
	require.NoError(t, err)
	n := pumpedHouse(p)
	solution, err := n.Solve()
	require.NoError(t, err)
	heats := []network.Heat{{Branch: 0, Exchange: network.Delivers, Temperature: 45}, {Branch: 1, Exchange: network.GivesOff, Power: 900}}
	own := func(ask func(s *network.System) (any, error)) func() (any, error) {
		return func() (any, error) {
			s, err := n.Prepare()
			if err != nil {
				return nil, err
			}
			return ask(s)
		}
	}
	return []shared{
		{"network.Network.Solve", func() (any, error) {
			r, err := n.Solve()
			if err != nil {
				return nil, err
			}
			return r.Branches, nil
		}},
		{"network.Network.Clone", func() (any, error) {
			c := n.Clone() // and what is changed in it
			c.Branches[0].Elements[2].(network.Pump).Curve[0].Head = 3
			c.Branches[1].Shut, c.Nodes[0].Pressure = true, 0
			return c, nil
		}},
		{"network.Network.Filled", func() (any, error) { return n.Filled(p).Fouled(1), nil }},
		{"network.Network.Inlet", func() (any, error) { return both(n.Inlet(solution, 0, hydronics.StandardAtmosphere)) }},
		{"network.Network.Temperatures", func() (any, error) { return both(n.Temperatures(solution, 20, heats)) }},
		{"network.Network.Warm", func() (any, error) {
			_, _, temperatures, err := n.Warm(fluid.Water(), 35, heats)
			return temperatures, err
		}},
		{"network.Solution.Pump", func() (any, error) { return both(solution.Pump(0)) }},
		{"network.System.Balance", own(func(s *network.System) (any, error) {
			return both(s.Balance([]network.Design{{Branch: 1, Flow: 0.07e-3}, {Branch: 2, Flow: 0.05e-3}}, 1000))
		})},
		{"network.System.Authority", own(func(s *network.System) (any, error) { return both(s.Authority(1)) })},
		{"network.System.BypassSetting", own(func(s *network.System) (any, error) {
			return both(s.BypassSetting(3, 0, []int{1, 2}, 0.3e-3))
		})},
		{"network.System.Combinations", own(func(s *network.System) (any, error) { return both(s.Combinations([]int{1, 2}, 0)) })},
	}
}

func ofExpansion(t *testing.T) []shared {
	s := expansion.System{Liquid: antifreeze(t), Content: 0.25, FillTemperature: 10, Hottest: 55, StaticHead: 6,
		ReliefSet: 3 * hydronics.Bar, Rules: expansion.EN12828()}
	v := expansion.Vessel{Nominal: 35 * hydronics.Litre, Precharge: 0.8 * hydronics.Bar}
	potable := expansion.Potable{Volume: 0.2, Cold: 10, Hot: 65, Supply: 4e5, ReliefSet: 8e5, Rules: expansion.PotablePractice()}
	return []shared{
		{"expansion.System.Size", func() (any, error) { return both(s.Size()) }},
		{"expansion.System.Window", func() (any, error) { return both(s.Window(v, 15)) }},
		{"expansion.Potable.Size", func() (any, error) { return both(potable.Size()) }},
		{"expansion.ProtectionUnits", func() (any, error) { return expansion.ProtectionUnits(), nil }},
	}
}

func ofFrost(*testing.T) []shared {
	section := frost.Section{Bore: 0.025, Surface: frost.InTheOpen(), Layers: []frost.Layer{
		{Thickness: 0.0015, Conductivity: 380, HeatCapacity: 3.44e6}, {Thickness: 0.04, Conductivity: 0.036, HeatCapacity: 9e4}}}
	night := frost.Night{
		Section: section, Medium: frost.Water(), Start: 30, Weather: []frost.Air{{Temperature: -12, Wind: 3}, {Temperature: -14}}, Setting: frost.CommonSetting(),
		Reach: frost.Reach{
			Route: pipe.Route{{Z: 1}, {Z: 0.4, Outdoors: true}, {X: 5, Z: 0.5, Outdoors: true}, {X: 5, Z: 1.2, Outdoors: true}},
			Bore:  0.025, Roughness: 1.5e-6, Drains: []frost.Drain{{Point: 1, Kv: 1}}, Vents: []int{0, 3},
		},
	}
	standing := frost.Standing{Section: section, Medium: frost.Water(), Start: 30, Weather: night.Weather, Until: 2e4}
	return []shared{
		{"frost.Section.HeatFlow", func() (any, error) { return both(section.HeatFlow(35, frost.Air{Temperature: -10, Wind: 3})) }},
		{"frost.Night.Run", func() (any, error) { return both(night.Run()) }},
		{"frost.Night.Remedies", func() (any, error) { return both(night.Remedies()) }},
		{"frost.Standing.Resolve", func() (any, error) { return both(standing.Resolve()) }},
	}
}

func ofHotWater(t *testing.T) []shared {
	profile, err := dhw.LoadProfile("M")
	require.NoError(t, err)
	day := dhw.Day{
		Cylinder: dhw.Cylinder{Volume: 0.2, Nodes: 20, VolumetricHeat: 4.18e6, LossCoefficient: 1.5}, Profile: profile,
		Heater: dhw.Heater{{Store: 5, Power: 7000}, {Store: 60, Power: 4500}}, Coil: 0.5, Sensor: 0.6,
		On: 47, Off: 52, Start: 50, Cold: 10, Ambient: 20, Step: 60, Days: 2,
	}
	feed := dhw.Feed{Book: dhw.DIN1988Part200, Chain: []dhw.Device{dhw.ShutOff, dhw.NonReturn, dhw.Relief, dhw.Store}, Content: 0.2, HeatInput: 9000, ReliefDN: 15}
	fixtures := []dhw.Fixtures{{Count: 12, Probability: 0.05, Flow: 1e-4}, {Count: 4, Probability: 0.02, Flow: 2e-4}}
	return []shared{
		{"dhw.Day.Run", func() (any, error) {
			var last dhw.DayState
			r, err := day.Run(func(s dhw.DayState) { last = s })
			return [2]any{r, last}, err
		}},
		{"dhw.Cylinder.Reheat", func() (any, error) { return both(day.Cylinder.Reheat(day.Heater, 10, 50, 20)) }},
		{"dhw.Profile.SumLine", func() (any, error) { return both(profile.SumLine(2000)) }},
		{"dhw.Feed.Findings", func() (any, error) { return both(feed.Findings()) }},
		{"dhw.DemandOfFixtures", func() (any, error) { return both(dhw.DemandOfFixtures(fixtures, 0.99, 1e-4)) }},
		{"dhw.LoadProfile", func() (any, error) { return both(dhw.LoadProfile("XL")) }},
	}
}

// What a caller does to a list that the library gave out changes nothing in it.
func TestListsAreCopies(t *testing.T) {
	for name, list := range map[string]func() any{
		"fluid.Solutes":              func() any { return fluid.Solutes() },
		"pipe.AllSeries":             func() any { return pipe.AllSeries() },
		"pipe.Catalogue":             func() any { return pipe.Catalogue() },
		"pipe.Series.Tubes":          func() any { tubes, _ := pipe.AllSeries()[0].Tubes(); return tubes },
		"pipe.Search":                func() any { return pipe.Search("22") },
		"pipe.Criteria":              func() any { return pipe.Criteria() },
		"pipe.Method.Names":          func() any { return pipe.TwoK.Names() },
		"pipe.Threads":               func() any { return pipe.Threads() },
		"pipe.Materials":             func() any { return pipe.Materials() },
		"expansion.BackflowOpinions": func() any { return expansion.BackflowOpinions(1) },
		"expansion.ProtectionUnits":  func() any { return expansion.ProtectionUnits() },
		"expansion.ReliefSizes":      func() any { sizes, _ := expansion.ReliefSizes(); return sizes },
		"dhw.ScaldTimes":             func() any { return dhw.ScaldTimes() },
		"dhw.LoadingPoints":          func() any { points, _ := dhw.LoadingPoints(); return points },
		"dhw.LoadingMaterials":       func() any { return dhw.LoadingMaterials() },
		"dhw.LoadingTubes":           func() any { tubes, _, _ := dhw.LoadingTubes("PB"); return tubes },
		"dhw.TemperatureRules":       func() any { return dhw.W551.TemperatureRules() },
		"dhw.ReliefValves":           func() any { valves, _ := dhw.ReliefValves(); return valves },
		"dhw.DrawPoints":             func() any { points, _ := dhw.DrawPoints(); return points },
		"dhw.LoadProfiles":           func() any { return dhw.LoadProfiles() },
		"dhw.LoadProfile":            func() any { p, _ := dhw.LoadProfile("S"); return p.Draws },
	} {
		before := fmt.Sprint(list())
		mine := reflect.ValueOf(list())
		require.Positive(t, mine.Len(), name)
		for i := range mine.Len() {
			mine.Index(i).SetZero()
		}
		assert.Equal(t, before, fmt.Sprint(list()), name)
	}
}

// No statement of a library package assigns to a variable of the package, by name
// or through a pointer that it took: what is global is written once, before main.
func TestNoMutableGlobals(t *testing.T) {
	for folder := range below {
		files, err := filepath.Glob(filepath.Join(folder, "*.go"))
		require.NoError(t, err)
		set := token.NewFileSet()
		var parsed []*ast.File
		for _, file := range files {
			if !strings.HasSuffix(file, "_test.go") {
				f, err := parser.ParseFile(set, file, nil, parser.SkipObjectResolution)
				require.NoError(t, err)
				parsed = append(parsed, f)
			}
		}
		assert.Empty(t, assignedGlobals(set, parsed), folder)
	}
}

// The test sees an assignment where there is one, and no other.
func TestNoMutableGlobalsSees(t *testing.T) {
	set := token.NewFileSet()
	const source = `package p
var table [3]struct{ x int }
var n int
func local() { n := 1; n++; _ = n; r := &table[0]; _ = r.x }
func direct() { table[1].x = 2; n += 3 }
func given() *int { return &n }
func through() { r := &table[0]; r.x++ }`
	f, err := parser.ParseFile(set, "p.go", source, parser.SkipObjectResolution)
	require.NoError(t, err)
	assert.Equal(t, []string{"p.go:5:17: table", "p.go:5:33: n", "p.go:6:29: n", "p.go:7:34: r"}, assignedGlobals(set, []*ast.File{f}))
}

// assignedGlobals lists where a function assigns to a variable of its package, or
// gives its address away.
func assignedGlobals(set *token.FileSet, files []*ast.File) (found []string) {
	// What is imported does not matter here, so that its absence is no error.
	info := types.Info{Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
	config := types.Config{Error: func(error) {}, Importer: nothing{}}
	pkg, _ := config.Check("p", set, files, &info)
	pointers := map[types.Object]bool{} // local names of what is global
	taken := map[ast.Expr]bool{}        // address expressions that such a name holds
	global := func(e ast.Expr) bool {
		name, whole := root(e)
		if name == nil {
			return false
		}
		v, ok := info.Uses[name].(*types.Var)
		return ok && (v.Parent() == pkg.Scope() || pointers[v] && !whole)
	}
	report := func(e ast.Expr) {
		name, _ := root(e)
		found = append(found, fmt.Sprintf("%v: %s", set.Position(name.Pos()), name.Name))
	}
	visit := func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			for i, e := range n.Lhs {
				if n.Tok != token.DEFINE && global(e) {
					report(e)
				}
				if name, ok := e.(*ast.Ident); ok && n.Tok == token.DEFINE && len(n.Lhs) == len(n.Rhs) {
					if address, ok := n.Rhs[i].(*ast.UnaryExpr); ok && address.Op == token.AND && global(address.X) {
						pointers[info.Defs[name]], taken[address] = true, true
					}
				}
			}
		case *ast.IncDecStmt:
			if global(n.X) {
				report(n.X)
			}
		case *ast.UnaryExpr:
			if n.Op == token.AND && !taken[n] && global(n.X) {
				report(n.X)
			}
		}
		return true
	}
	for _, file := range files {
		for _, declaration := range file.Decls {
			if function, ok := declaration.(*ast.FuncDecl); ok && function.Body != nil {
				ast.Inspect(function.Body, visit)
			}
		}
	}
	return found
}

// root returns the name at the bottom of an expression, and whether it is the
// whole of it.
func root(e ast.Expr) (name *ast.Ident, whole bool) {
	for whole = true; ; whole = false {
		switch x := e.(type) {
		case *ast.Ident:
			return x, whole
		case *ast.IndexExpr:
			e = x.X
		case *ast.SelectorExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		default:
			return nil, false
		}
	}
}

// nothing imports every package as an empty one.
type nothing struct{}

func (nothing) Import(path string) (*types.Package, error) {
	p := types.NewPackage(path, path[strings.LastIndexByte(path, '/')+1:])
	p.MarkComplete()
	return p, nil
}
