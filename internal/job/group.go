package job

// A group ties findings to the remedies that may help.
type group uint8

const (
	groupNone group = iota
	groupPump
	groupVelocity
	groupOutput
	groupLeastFlow
	groupBufferFlow
	groupMixedSupply
	groupMixedPump
	groupMixedValve
	groupLimiter
	groupContent
	groupOxygen
	groupReliefSet
	groupReliefSize
	groupVessel
	groupInlet
	groupFilling
	groupInsulation
	groupFrost
	groupAntifreeze
	groupBrine
	groupOutdoors
	groupVents
	groupService
	groupDemand
	groupReheat
	groupPotableRelief
	groupSetPressure
	groupPotableVessel
	groupDischarge
	groupFeed
	groupOverheating
	groupHygiene
)

// The kinds of device that the assessment looks for.
const (
	airInlet          = "air inlet"
	ventAutomatic     = "air vent, automatic"
	ventManual        = "air vent, manual"
	closingValve      = "closing valve, closed without power"
	drainThermostatic = "drain valve, thermostatic"
	reliefDevice      = "relief valve"
	shutOff           = "shut-off valve"
	strainer          = "strainer"
)
