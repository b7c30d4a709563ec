package job

import (
	"fmt"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
)

// judgeFilling judges the link to the potable water.
func (p *plant) judgeFilling(s *Sheet) error {
	l := &p.job.FillingLink
	contents := expansion.PlainHeatingWater
	switch {
	case p.liquid.Solute() == fluid.PropyleneGlycol:
		contents = expansion.PropyleneGlycolWater
	case p.liquid.Solute() == fluid.EthyleneGlycol:
		contents = expansion.EthyleneGlycolWater
	case l.Additives:
		contents = expansion.InhibitedHeatingWater
	}
	practice := custom("filling of heating circuits")
	if !p.liquid.IsWater() {
		s.add(Pressure, groupFilling, hydronics.Statement("with antifreeze nothing tops the circuit up from the mains", "filling link", !l.Permanent,
			practice, "mains water thins the antifreeze until it freezes"))
	}
	if p.liquid.Solute() == fluid.EthyleneGlycol && p.job.Cylinder != nil {
		s.add(Pressure, groupFilling, hydronics.Statement("ethylene glycol and potable water have two walls and a leak space between them", "coil of the cylinder",
			p.job.Cylinder.CoilWalls == 2, practice, "a leaking coil poisons the drinking water"))
	}
	const rule = "the backflow preventer of the filling link protects against the circuit's fluid category"
	if l.Unit == "" {
		s.add(Pressure, groupFilling, hydronics.OnSite(rule, "filling link", custom("EN 1717 and the local water authority"), "heating water in the drinking water"))
		return nil
	}
	f, err := expansion.JudgeFilling(contents, "", l.Unit)
	if err != nil {
		var known strings.Builder
		for _, u := range expansion.ProtectionUnits() {
			known.WriteString(" " + u.Letters)
		}
		return Faults{{"filling_link.backflow_unit", fmt.Sprintf("%q", l.Unit), "one of" + known.String()}}
	}
	s.add(Pressure, groupFilling, f)
	return nil
}
