package dhw

import (
	"fmt"
	"math"
	"slices"

	"example.com/hydronics"
)

// A Draw is one draw-off of hot water. It wants an energy, not a volume: the
// colder the hot water, the longer it runs.
type Draw struct {
	Start  float64 // s after midnight, 0 to 86400
	Energy float64 // J, useful heat above the cold water, 1 to 1e9 (guard)
	Flow   float64 // m³/s at the tap, 1e-7 to 0.1 (guard)
	Useful float64 // °C, from which on the water counts, 0 to 100 (guard)
	Peak   float64 // °C, to be reached during the draw-off; 0: none asked for
}

// Wanted returns the temperature in °C at which the tap is run: the peak where
// there is one, otherwise the useful temperature.
func (d Draw) Wanted() float64 { return max(d.Peak, d.Useful) }

func (d Draw) check(fn string) error {
	return together(
		hydronics.Within(fn, "start of a draw-off", "s", d.Start, 0, hydronics.Day, "one day"),
		hydronics.Within(fn, "energy of a draw-off", "J", d.Energy, 1, 1e9, hydronics.Guard),
		hydronics.Within(fn, "flow of a draw-off", "m³/s", d.Flow, minFlow, maxFlow, hydronics.Guard),
		water(fn, "useful temperature", d.Useful), water(fn, "peak temperature", d.Peak))
}

// A Profile is the draw-offs of one day in the order of their starts: one of
// [LoadProfile], or one that was measured or assumed for the house.
type Profile struct {
	Name   string
	Draws  []Draw // 1 to 10000, in order
	Source hydronics.Source
}

var euSource = hydronics.Source{
	Text:       "Commission Regulation (EU) No 814/2013 (consolidated 2017-01-09), Annex III, Table 1",
	Provenance: hydronics.Original,
}

// LoadProfiles returns the names of the load profiles of EU law, smallest first:
// 3XS, XXS, XS, S, M, L, XL, XXL, 3XL, 4XL.
func LoadProfiles() []string {
	names := make([]string, len(euDraws))
	for i, p := range euDraws {
		names[i] = p.profile
	}
	return names
}

// LoadProfile returns the load profile of EU law called name. M stands for a
// small household, L for a family with showers and a bath. Any other name has
// [hydronics.ErrNoSolution].
//
// Source: Commission Regulation (EU) No 814/2013, Annex III, Table 1.
func LoadProfile(name string) (Profile, error) {
	for _, p := range euDraws {
		if p.profile != name {
			continue
		}
		draws := make([]Draw, len(p.draws))
		for i, d := range p.draws {
			draws[i] = Draw{
				Start:  float64(d.hour)*hydronics.Hour + float64(d.minute)*hydronics.Minute,
				Energy: d.energy * hydronics.KilowattHour,
				Flow:   d.flow * hydronics.LitrePerMinute,
				Useful: d.useful,
				Peak:   d.peak,
			}
		}
		return Profile{Name: name, Draws: draws, Source: euSource}, nil
	}
	return Profile{}, fmt.Errorf("%w: dhw.LoadProfile: no load profile %q, there are %v", hydronics.ErrNoSolution, name, LoadProfiles())
}

// check reports draw-offs outside their limits or out of order.
func (p Profile) check(fn string) error {
	if err := count(fn, "number of draw-offs", len(p.Draws), 1, 10000); err != nil {
		return err
	}
	for i, d := range p.Draws {
		if err := d.check(fn); err != nil {
			return fmt.Errorf("draw-off %d: %w", i+1, err)
		}
		if i > 0 && d.Start < p.Draws[i-1].Start {
			return fmt.Errorf("draw-off %d: %w", i+1, hydronics.Within(fn, "start of a draw-off", "s", d.Start,
				p.Draws[i-1].Start, hydronics.Day, "order of the draw-offs"))
		}
	}
	return nil
}

// Energy returns the useful heat of the day in J. A profile outside the limits
// of its fields returns NaN and a [hydronics.RangeError].
//
// Source: definition (the sum of the draw-offs; Q_ref of Regulation (EU) No
// 814/2013, Annex III, Table 1).
func (p Profile) Energy() (float64, error) {
	if err := p.check("dhw.Profile.Energy"); err != nil {
		return math.NaN(), err
	}
	sum := 0.0
	for _, d := range p.Draws {
		sum += d.Energy
	}
	return sum, nil
}

// A Peak is the part of a day with the largest demand.
type Peak struct {
	Start  float64 // s after midnight, start of the first draw-off in it
	Energy float64 // J
}

// Busiest returns the stretch of a length in s (0 to 86400) with the most useful
// energy. A draw-off belongs to it with its whole energy if it starts inside,
// the ends included, as EN 15450 counts its critical hour; there the standard
// takes the evening hour, which for profile L is not the busiest. Midnight is a
// border: a stretch does not run into the next day. Fields outside their limits
// return a [hydronics.RangeError].
//
// Source: definition; critical period of EN 15450:2007, as attributed.
func (p Profile) Busiest(stretch float64) (Peak, error) {
	const fn = "dhw.Profile.Busiest"
	err := together(p.check(fn), hydronics.Within(fn, "length of the stretch", "s", stretch, 0, hydronics.Day, "one day"))
	if err != nil {
		return Peak{}, err
	}
	best, sum, first := Peak{Energy: -1}, 0.0, 0
	for last, d := range p.Draws {
		sum += d.Energy
		for d.Start-p.Draws[first].Start > stretch {
			sum -= p.Draws[first].Energy
			first++
		}
		// Equal starts that follow join before the stretch is judged.
		if last+1 < len(p.Draws) && p.Draws[last+1].Start == d.Start {
			continue
		}
		if sum > best.Energy {
			best = Peak{p.Draws[first].Start, sum}
		}
	}
	return best, nil
}

// Between returns the useful energy in J of the draw-offs that start from one
// time to another, both included, in s after midnight (0 to 86400). Outside the
// limits it returns NaN and a [hydronics.RangeError].
//
// Source: definition.
func (p Profile) Between(from, to float64) (float64, error) {
	const fn = "dhw.Profile.Between"
	err := together(p.check(fn), hydronics.Within(fn, "start of the stretch", "s", from, 0, hydronics.Day, "one day"),
		hydronics.Within(fn, "end of the stretch", "s", to, from, hydronics.Day, "one day"))
	if err != nil {
		return math.NaN(), err
	}
	sum := 0.0
	for _, d := range p.Draws {
		if d.Start >= from && d.Start <= to {
			sum += d.Energy
		}
	}
	return sum, nil
}

// Volume returns the day's hot water in m³ if all of it had the temperature t in
// °C, from cold water of the temperature cold in °C (0 to 100 and at least 0.1 K
// apart) and a volumetric heat in J/(m³·K), 3.8e6 to 4.3e6 (guard):
// energy/(ρc (t - cold)). Outside the limits it returns NaN and a
// [hydronics.RangeError].
//
// Source: energy balance, as for [HotShare].
func (p Profile) Volume(t, cold, volumetricHeat float64) (float64, error) {
	const fn = "dhw.Profile.Volume"
	energy, err := p.Energy()
	if err := together(err, water(fn, "cold water", cold), above(fn, "hot water", t, cold), heat(fn, volumetricHeat)); err != nil {
		return math.NaN(), err
	}
	return energy / (volumetricHeat * (t - cold)), nil
}

// A ProfileRequirement is what EU law asks of a storage water heater that is
// declared for a load profile.
type ProfileRequirement struct {
	MixedWater float64 // m³ of 40 °C, least V40; 0: none
	MaxStorage float64 // m³, largest storage volume; 0: none
	Source     hydronics.Source
}

// Requirement returns what EU law asks of a heater declared for the load
// profile called name; unknown names have [hydronics.ErrNoSolution].
//
// Source: Commission Regulation (EU) No 814/2013, Annex II, points 1.2 and 1.3.
func Requirement(name string) (ProfileRequirement, error) {
	i := slices.IndexFunc(euDraws[:], func(p euProfile) bool { return p.profile == name })
	if i < 0 {
		return ProfileRequirement{}, fmt.Errorf("%w: dhw.Requirement: no load profile %q, there are %v", hydronics.ErrNoSolution, name, LoadProfiles())
	}
	return ProfileRequirement{MixedWater: euDraws[i].mixed * hydronics.Litre, MaxStorage: euDraws[i].content * hydronics.Litre,
		Source: hydronics.Source{Text: "Commission Regulation (EU) No 814/2013 (consolidated 2017-01-09), Annex II, points 1.2 and 1.3", Provenance: hydronics.Original}}, nil
}
