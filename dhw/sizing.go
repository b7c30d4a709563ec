package dhw

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// A StoreDemand is what a heat pump's hot water store is sized for.
type StoreDemand struct {
	Day            Amount  // hot water of a day at the temperature it is counted at, usually 60 °C
	Cold           float64 // °C, cold water, 0 to 100
	Stored         float64 // °C, of the store, at most 100
	Usable         float64 // °C, down to which the store serves, 40 in EN 15450; from Cold to Stored
	DailyLoss      float64 // J a day, standing loss of the store, 0 to 1e9 (guard)
	Critical       float64 // J, useful energy of the critical period, 0 to 1e10 (guard)
	CriticalTime   float64 // s, its length, 60 s to a day (guard)
	VolumetricHeat float64 // J/(m³·K), EN 15450 calculates with 4.184e6
}

func (d StoreDemand) check(fn string) error {
	return together(hydronics.Within(fn, "daily volume", "m³", d.Day.Volume, 0, 1000, hydronics.Guard),
		water(fn, "cold water", d.Cold), above(fn, "temperature of the daily volume", d.Day.Temperature, d.Cold),
		above(fn, "store temperature", d.Stored, d.Cold),
		hydronics.Within(fn, "usable temperature", "°C", d.Usable, d.Cold, d.Stored, "between cold water and store"),
		hydronics.Within(fn, "daily loss", "J", d.DailyLoss, 0, 1e9, hydronics.Guard),
		hydronics.Within(fn, "critical energy", "J", d.Critical, 0, 1e10, hydronics.Guard),
		hydronics.Within(fn, "critical time", "s", d.CriticalTime, hydronics.Minute, hydronics.Day, hydronics.Guard),
		heat(fn, d.VolumetricHeat))
}

// A StoreSize is a store and the heat pump's power for it.
type StoreSize struct {
	DayVolume  float64 // m³ of the store's temperature that a day takes
	LossVolume float64 // m³ of the store's temperature that carries the day's loss
	Volume     float64 // m³ of the store
	Usable     float64 // J in the store above the usable temperature
	Power      float64 // W that the heat pump has to give
}

// Part returns a store that carries a part of the demand, the heat pump the rest
// of the critical period:
//
//	V = V_day + V_loss,  P = max(0, Q_critical - V ρc (T_stored - T_usable))/t_critical + Q_loss/24 h
//
// Fields outside their limits return a [hydronics.RangeError].
//
// Source: EN 15450:2007, Annex E, example E.2, as attributed.
func (d StoreDemand) Part() (StoreSize, error) {
	if err := d.check("dhw.StoreDemand.Part"); err != nil {
		return StoreSize{}, err
	}
	s := d.size(1)
	s.Power = math.Max(0, d.Critical-s.Usable)/d.CriticalTime + d.DailyLoss/hydronics.Day
	return s, nil
}

// Full returns a store that holds two days' demand and is heated within the time
// in s that the heat pump has a day, 600 s to a day (guard), such as 8 h of a low
// tariff:
//
//	V = 2 V_day + V_loss,  P = V ρc (T_stored - T_cold)/t
//
// Source: EN 15450:2007, Annex E, as attributed.
func (d StoreDemand) Full(time float64) (StoreSize, error) {
	const fn = "dhw.StoreDemand.Full"
	if err := together(d.check(fn), hydronics.Within(fn, "heating time", "s", time, 600, hydronics.Day, hydronics.Guard)); err != nil {
		return StoreSize{}, err
	}
	s := d.size(2)
	s.Power = s.Volume * d.VolumetricHeat * (d.Stored - d.Cold) / time
	return s, nil
}

func (d StoreDemand) size(days float64) StoreSize {
	s := StoreSize{
		DayVolume:  d.Day.Volume * (d.Day.Temperature - d.Cold) / (d.Stored - d.Cold),
		LossVolume: d.DailyLoss / (d.VolumetricHeat * (d.Stored - d.Cold)),
	}
	s.Volume = days*s.DayVolume + s.LossVolume
	s.Usable = s.Volume * d.VolumetricHeat * (d.Stored - d.Usable)
	return s
}

// A SumLine is the outcome of comparing cumulative demand with cumulative supply.
type SumLine struct {
	Content float64 // J of useful heat that the store has to hold when full
	At      float64 // s after midnight, when a store of that content is empty
}

// SumLine returns the useful heat that a store has to hold so that a heater of a
// constant power in W (0 to 1e6, guard), its losses already taken off, serves the
// profile day after day. Each draw-off takes its energy at once, which is on the
// safe side. The store is full when the heater has caught up, and
//
//	content = largest over all stretches of (demand in the stretch - power × its length)
//
// A power that does not cover the day's demand has [hydronics.ErrNoSolution].
//
// Source: method of EN 12831-3 (cumulative demand and supply), as attributed.
func (p Profile) SumLine(power float64) (SumLine, error) {
	const fn = "dhw.Profile.SumLine"
	energy, err := p.Energy()
	if err := together(err, hydronics.Within(fn, "power", "W", power, 0, maxPower, hydronics.Guard)); err != nil {
		return SumLine{}, err
	}
	if energy > power*hydronics.Day {
		return SumLine{}, fmt.Errorf("%w: %s: %.4g W give %.4g J a day, the profile wants %.4g J",
			hydronics.ErrNoSolution, fn, power, power*hydronics.Day, energy)
	}
	// The deficit of the store after each draw-off; two days, so that what the
	// first evening leaves is carried into the morning.
	var s SumLine
	deficit, last := 0.0, 0.0
	for day := range 2 {
		for _, d := range p.Draws {
			at := float64(day)*hydronics.Day + d.Start
			deficit = math.Max(0, deficit-power*(at-last)) + d.Energy
			last = at
			if deficit > s.Content {
				s = SumLine{deficit, d.Start}
			}
		}
	}
	return s, nil
}
