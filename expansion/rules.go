package expansion

import (
	"errors"
	"fmt"

	"example.com/hydronics"
)

// A Setting is one margin of a set of rules and where it comes from.
type Setting struct {
	Value  float64 // SI
	Source hydronics.Source
}

// Rules are the margins of one standard or of one country's practice. None of
// them is built into a formula: they are read, printed and changed here. Take a
// set by its name and overwrite what a job needs, with a source of its own:
//
//	rules := expansion.EN12828()
//	rules.ReserveShare = expansion.Setting{Value: 0.01, Source: jobSource}
//
// The zero value is refused.
type Rules struct {
	Name string // the standard and its edition; must not be empty

	// Pre-charge, at the vessel: the largest of the three (plus what the pump
	// takes away where the vessel stands at its outlet).
	PrechargeOverStatic Setting // Pa above the static height, 0 to 2 bar
	PrechargeOverVapour Setting // Pa above static height and vapour pressure, 0 to 2 bar
	PrechargeFloor      Setting // Pa gauge, least in any case, 0 to 5 bar

	// Filling pressure, at the vessel and at the filling temperature.
	FillingOverPrecharge Setting // Pa above the pre-charge, 0 to 2 bar
	FillingFloor         Setting // Pa gauge, least in any case, 0 to 5 bar

	// Water reserve: the larger of the two, or in vessels up to SmallVessel the
	// share of their nominal volume instead.
	ReserveShare Setting // of the content, 0 to 0.1
	ReserveLeast Setting // m³, 0 to 0.1
	SmallVessel  Setting // m³, 0: no vessel counts as small
	SmallReserve Setting // of the nominal volume, 0 to 0.5

	// Final pressure, at the relief valve: the set pressure less the larger of the two.
	FinalBelow      Setting // Pa below the set pressure, 0 to 2 bar
	FinalBelowShare Setting // of the set pressure, 0 to 0.5

	Expansion Method // how the expansion volume is found
}

func (r Rules) check() error {
	const fn = "expansion.Rules"
	if r.Name == "" {
		return fmt.Errorf("%s: no rules chosen, want those of a standard such as expansion.EN12828(): %w", fn, hydronics.ErrRange)
	}
	var err error
	if int(r.Expansion) >= len(methodNames) {
		err = fmt.Errorf("%s: unknown expansion method %d: %w", fn, r.Expansion, hydronics.ErrRange)
	}
	in := func(quantity, unit string, s *Setting, max float64) error {
		return hydronics.Within(fn, quantity, unit, s.Value, 0, max, hydronics.Guard)
	}
	return errors.Join(err,
		in("pre-charge above static height", "Pa", &r.PrechargeOverStatic, 2*hydronics.Bar),
		in("pre-charge above vapour pressure", "Pa", &r.PrechargeOverVapour, 2*hydronics.Bar),
		in("least pre-charge", "Pa", &r.PrechargeFloor, 5*hydronics.Bar),
		in("filling above pre-charge", "Pa", &r.FillingOverPrecharge, 2*hydronics.Bar),
		in("least filling pressure", "Pa", &r.FillingFloor, 5*hydronics.Bar),
		in("reserve share", "", &r.ReserveShare, 0.1),
		in("least reserve", "m³", &r.ReserveLeast, 0.1),
		in("small vessel", "m³", &r.SmallVessel, 0.05),
		in("small vessel's reserve", "", &r.SmallReserve, 0.5),
		in("final pressure below set pressure", "Pa", &r.FinalBelow, 2*hydronics.Bar),
		in("final pressure below set pressure, share", "", &r.FinalBelowShare, 0.5))
}

// Where the settings were seen.
var (
	en2012  = hydronics.Source{Text: "EN 12828:2012+A1, as summarised by Buildwise (Belgium)", Provenance: hydronics.SecondHand}
	en2003  = hydronics.Source{Text: "EN 12828:2003, as summarised by Buildwise (Belgium)", Provenance: hydronics.SecondHand}
	reserve = hydronics.Source{Text: "EN 12828 and DIN 4807-2, water reserve, as quoted in engineering notes", Provenance: hydronics.SecondHand}
	small   = hydronics.Source{Text: "EN 12828, water reserve of vessels up to 15 l", Provenance: hydronics.FromMemory}
	closing = hydronics.Source{Text: "DIN 4807-2, closing difference of the relief valve, as quoted in engineering notes", Provenance: hydronics.SecondHand}
	din     = hydronics.Source{Text: "DIN 4807-2, as followed in an engineering note's worked example", Provenance: hydronics.SecondHand}
	bs      = hydronics.Source{Text: "BS 7074-1:1989 and BS 5449:1990, table of vessel volumes", Provenance: hydronics.SecondHand}
	bsFit   = hydronics.Source{Text: "BS 7074-1:1989, found by fitting its table of vessel volumes", Provenance: hydronics.SecondHand}
	une     = hydronics.Source{Text: "UNE 100155:2004, as applied in a calculation sheet", Provenance: hydronics.SecondHand}
	uneMem  = hydronics.Source{Text: "UNE 100155:2004, final pressure, second limit", Provenance: hydronics.FromMemory}
	unePub  = hydronics.Source{Text: "Govern de les Illes Balears, vocational training unit 3.3 on vessels", Provenance: hydronics.Original}
	italy   = hydronics.Source{Text: "ISPESL/INAIL, Raccolta R, edition 2009, R.3.B", Provenance: hydronics.SecondHand}
	us5psi  = hydronics.Source{Text: "J. Siegenthaler, Larger than necessary, PM Magazine: 5 psi at the top of the system", Provenance: hydronics.Original}
	usCode  = hydronics.Source{Text: "13 NCAC 13 .0412(d), formula for closed tanks", Provenance: hydronics.Original}
	us10    = hydronics.Source{Text: "R. W. Griffith, Thermal expansion tanks, part 2: 10 % below the relief setting", Provenance: hydronics.Original}
)

// EN12828 returns the margins of EN 12828:2012+A1:2014 for heating systems: the
// pre-charge holds static height and vapour pressure and lies at least 0.2 bar
// above the static height; the filling pressure is at least 0.5 bar; the reserve
// is 0.5 % of the content and at least 3 l. The final pressure stays below the
// relief valve's setting by the closing difference of DIN 4807-2: 0.5 bar, or
// 10 % above 5 bar. The standard itself was not seen; every setting says where
// it was quoted.
//
// Sources: EN 12828:2012+A1, as summarised by Buildwise (Belgium); reserve and closing
// difference of DIN 4807-2, as quoted in engineering notes.
func EN12828() Rules {
	return Rules{
		Name:                 "EN 12828:2012+A1:2014",
		PrechargeOverStatic:  Setting{0.2 * hydronics.Bar, en2012},
		PrechargeOverVapour:  Setting{0, en2012},
		PrechargeFloor:       Setting{0, en2012},
		FillingOverPrecharge: Setting{0, en2012},
		FillingFloor:         Setting{0.5 * hydronics.Bar, en2012},
		ReserveShare:         Setting{0.5 * hydronics.Percent, reserve},
		ReserveLeast:         Setting{3 * hydronics.Litre, reserve},
		FinalBelow:           Setting{0.5 * hydronics.Bar, closing},
		FinalBelowShare:      Setting{10 * hydronics.Percent, closing},
	}
}

// EN12828SmallVessels returns [EN12828] with the reserve of vessels up to 15 l
// that is remembered from the standard, 20 % of their nominal volume in place of
// 3 l. No source for it was seen, so findings that rest on it never read met.
// Source: EN 12828, from memory.
func EN12828SmallVessels() Rules {
	r := EN12828()
	r.Name += ", vessels up to 15 l"
	r.SmallVessel = Setting{15 * hydronics.Litre, small}
	r.SmallReserve = Setting{20 * hydronics.Percent, small}
	return r
}

// EN12828Edition2003 returns the margins of the withdrawn edition of 2003: the
// pre-charge lies 0.3 bar above static height and vapour pressure and is at
// least 0.7 bar. Source: EN 12828:2003, as summarised by Buildwise (Belgium).
func EN12828Edition2003() Rules {
	r := EN12828()
	r.Name = "EN 12828:2003"
	r.PrechargeOverStatic = Setting{0.3 * hydronics.Bar, en2003}
	r.PrechargeOverVapour = Setting{0.3 * hydronics.Bar, en2003}
	r.PrechargeFloor = Setting{0.7 * hydronics.Bar, en2003}
	r.FillingOverPrecharge = Setting{0, en2003}
	r.FillingFloor = Setting{0, en2003}
	return r
}

// DIN4807 returns the margins of DIN 4807-2: pre-charge at static height and
// vapour pressure, reserve 0.5 % and at least 3 l, final pressure 0.5 bar or
// 10 % below the relief valve's setting.
// Source: DIN 4807-2, as followed in an engineering note's worked example and, for
// reserve and closing difference, as quoted in others.
func DIN4807() Rules {
	return Rules{
		Name:                 "DIN 4807-2",
		PrechargeOverStatic:  Setting{0, din},
		PrechargeOverVapour:  Setting{0, din},
		FillingOverPrecharge: Setting{0, din},
		ReserveShare:         Setting{0.5 * hydronics.Percent, reserve},
		ReserveLeast:         Setting{3 * hydronics.Litre, reserve},
		FinalBelow:           Setting{0.5 * hydronics.Bar, closing},
		FinalBelowShare:      Setting{10 * hydronics.Percent, closing},
	}
}

// BS7074 returns the margins that the British table of BS 7074-1:1989 for
// domestic systems was made with: charge equal to the initial pressure, no
// reserve, final pressure 0.35 bar below the relief valve's setting. The last
// figure was found by fitting the table's 96 values.
// Source: BS 7074-1:1989 and BS 5449:1990, table of vessel volumes, as reproduced.
func BS7074() Rules {
	return Rules{
		Name:                 "BS 7074-1:1989",
		PrechargeOverStatic:  Setting{0, bs},
		PrechargeOverVapour:  Setting{0, bs},
		FillingOverPrecharge: Setting{0, bs},
		ReserveShare:         Setting{0, bs},
		FinalBelow:           Setting{0.35 * hydronics.Bar, bsFit},
	}
}

// UNE100155 returns the margins of the Spanish UNE 100155:2004: final pressure
// below the relief valve's setting by 10 %, and by 0.35 bar (the second limit
// from memory), pre-charge at least 0.5 bar, no reserve, its own expansion formula.
// Sources: UNE 100155:2004, as applied in a calculation sheet; Govern de les Illes
// Balears, vocational training unit 3.3 on vessels (least pre-charge).
func UNE100155() Rules {
	return Rules{
		Name:                 "UNE 100155:2004",
		PrechargeOverStatic:  Setting{0, une},
		PrechargeOverVapour:  Setting{0, une},
		PrechargeFloor:       Setting{0.5 * hydronics.Bar, unePub},
		FillingOverPrecharge: Setting{0, une},
		ReserveShare:         Setting{0, une},
		FinalBelow:           Setting{0.35 * hydronics.Bar, uneMem},
		FinalBelowShare:      Setting{10 * hydronics.Percent, une},
		Expansion:            UNE,
	}
}

// RaccoltaR2009 returns the margins of the Italian Raccolta R, edition 2009:
// initial pressure 0.15 bar above the static height and at least 0.5 bar, final
// pressure equal to the relief valve's setting, its own expansion formula.
// Source: ISPESL/INAIL, Raccolta R, edition 2009, R.3.B, as quoted.
func RaccoltaR2009() Rules {
	return Rules{
		Name:                 "Raccolta R 2009",
		PrechargeOverStatic:  Setting{0.15 * hydronics.Bar, italy},
		PrechargeOverVapour:  Setting{0, italy},
		PrechargeFloor:       Setting{0.5 * hydronics.Bar, italy},
		FillingOverPrecharge: Setting{0, italy},
		ReserveShare:         Setting{0, italy},
		FinalBelow:           Setting{0, italy},
		Expansion:            RaccoltaR,
	}
}

// USPractice returns the margins usual in the United States: 5 psi at the top
// of the system, final pressure 10 % below the relief valve's setting, no
// reserve, real densities. The codes count the expansion net of the pipes: see
// [System.TubeExpansion].
// Sources: J. Siegenthaler, Larger than necessary, PM Magazine; R. W. Griffith, Thermal
// expansion tanks, part 2; 13 NCAC 13 .0412(d).
func USPractice() Rules {
	return Rules{
		Name:                 "US practice",
		PrechargeOverStatic:  Setting{5 * hydronics.PoundPerSquareIn, us5psi},
		PrechargeOverVapour:  Setting{0, us5psi},
		FillingOverPrecharge: Setting{0, usCode},
		ReserveShare:         Setting{0, usCode},
		FinalBelowShare:      Setting{10 * hydronics.Percent, us10},
	}
}
