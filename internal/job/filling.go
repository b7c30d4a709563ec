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
	case !p.liquid.IsWater():
		contents = expansion.EthyleneGlycolWater // or what is judged like it
	case l.Additives:
		contents = expansion.InhibitedHeatingWater
	}
	practice := custom("filling of heating circuits")
	if !p.liquid.IsWater() {
		s.add(Pressure, groupFilling, hydronics.Statement("with antifreeze nothing tops the circuit up from the mains", "filling link", !l.Permanent,
			practice, "mains water thins the antifreeze until it freezes"))
		p.judgeBrine(s)
		p.judgeCoil(s)
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
	if !p.liquid.IsWater() && !p.glycol() {
		f.Subject = p.liquid.String() + ", unit " + l.Unit
		f.Source = custom("no category of this solution was seen: taken as toxic, category 4 of EN 1717")
		f = f.Judge()
	}
	s.add(Pressure, groupFilling, f)
	return nil
}
