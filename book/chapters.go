package book

// chapters of ATA Specification 100 that systems of an aircraft fall into, by
// their usual titles; FAA "Joint Aircraft System/Component Code Table and
// Definitions" (2008) has the same list. From memory.
var chapters = map[int]string{
	21: "Air conditioning", 22: "Auto flight", 23: "Communications", 24: "Electrical power", 25: "Equipment and furnishings",
	26: "Fire protection", 27: "Flight controls", 28: "Fuel", 29: "Hydraulic power", 30: "Ice and rain protection",
	31: "Indicating and recording", 32: "Landing gear", 33: "Lights", 34: "Navigation", 35: "Oxygen", 36: "Pneumatic",
	38: "Water and waste", 45: "Central maintenance", 46: "Information systems", 49: "Auxiliary power", 51: "Structures",
	52: "Doors", 53: "Fuselage", 54: "Nacelles and pylons", 55: "Stabilizers", 56: "Windows", 57: "Wings", 61: "Propellers",
	70: "Engine practices", 71: "Power plant", 72: "Engine", 73: "Engine fuel and control", 74: "Ignition", 75: "Engine air",
	76: "Engine controls", 77: "Engine indicating", 78: "Exhaust", 79: "Engine oil", 80: "Starting",
}

// ChapterTitle is the usual title of an ATA chapter; "" of one that has none.
func ChapterTitle(n int) string { return chapters[n] }
