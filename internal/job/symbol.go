package job

// symbols are the units of the job file as people write them.
var symbols = map[string]string{
	"": "", "1": "", "percent": "%", "c": "°C", "k": "K", "m": "m", "mm": "mm", "l": "l",
	"l_min": "l/min", "m_s": "m/s", "h": "h", "s": "s", "kpa": "kPa", "bar": "bar", "kwh": "kWh",
	"kw": "kW", "w": "W", "w_k": "W/K", "w_mk": "W/(m·K)", "m3_h": "m³/h", "min": "min",
}

// Symbol returns the unit of a key's suffix as people write it: l/min for l_min.
func Symbol(suffix string) string {
	if s, ok := symbols[suffix]; ok {
		return s
	}
	return suffix
}
