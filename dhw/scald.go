package dhw

import "slices"

// A ScaldTime is one published figure of how long hot water takes to burn the skin
// of an adult. The time is text as it was printed, and stays so: the figures
// contradict each other by factors of two, and nothing may be calculated from them.
type ScaldTime struct {
	Temperature float64 // °C
	Burn        string  // second degree, third degree, or not stated
	Time        string  // as printed, in seconds
	Origin      string
}

const (
	scaldTrade    = "table in °C of a trade page on scald protection, after Moritz and Henriques, 1947"
	scaldHospital = "leaflet of a children's hospital"
	scaldCampaign = "burn-prevention campaign"
	scaldPharmacy = "page of a pharmacy"
	scaldMilitary = "MIL-HDBK-1191"
)

var scaldTimes = [...]ScaldTime{
	{45, "second degree", "7200", scaldTrade}, {45, "third degree", "10800", scaldTrade},
	{47, "second degree", "1200", scaldTrade}, {47, "third degree", "2700", scaldTrade},
	{48, "second degree", "900", scaldTrade}, {48, "third degree", "1200", scaldTrade},
	{48.9, "not stated", "more than 300", scaldHospital}, {48.9, "not stated", "300", scaldCampaign},
	{49, "second degree", "480", scaldTrade}, {49, "third degree", "600", scaldTrade},
	{51, "second degree", "120", scaldTrade}, {51, "third degree", "252", scaldTrade},
	{51.7, "not stated", "90 to 120", scaldHospital}, {52, "first degree", "45", scaldMilitary},
	{52.8, "not stated", "60", scaldCampaign}, {54.4, "not stated", "30", scaldHospital},
	{55, "second degree", "17", scaldTrade}, {55, "third degree", "30", scaldTrade},
	{56.1, "third degree", "15", scaldPharmacy}, {57.2, "not stated", "10", scaldHospital},
	{60, "second degree", "3", scaldTrade}, {60, "third degree", "5", scaldTrade},
	{60, "not stated", "less than 5", scaldHospital}, {60, "not stated", "5", scaldCampaign}, {60, "third degree", "5", scaldPharmacy},
	{62.8, "not stated", "less than 3", scaldHospital}, {65.6, "not stated", "1.5", scaldHospital},
	{68.3, "not stated", "1", scaldHospital}, {68.3, "third degree", "1", scaldCampaign},
}

// ScaldTimes returns published times to a burn, by rising temperature, with all
// their disagreement: at 49 °C one source has 10 minutes to a third-degree burn,
// another 5 to any. Children burn several times faster. Show them with
// [ScaldCaution]; limits to design for are in [Rulebook.TemperatureRules].
func ScaldTimes() []ScaldTime { return slices.Clone(scaldTimes[:]) }
