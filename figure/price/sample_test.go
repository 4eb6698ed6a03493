package price

// The samples are invented.

func sampleFuel() Fuel {
	return Fuel{
		ID: "fuel", To: "Foxtrot",
		Healthy: Burn{Points: []Burned{{0, 5200}, {8, 4750}, {25, 4100}, {38, 3880}, {43, 3720}}, Reserve: 1080, Lands: true, DryAt: 136},
		Failed:  Burn{Points: []Burned{{0, 5200}, {10, 3900}, {30, 2400}, {48, 1420}, {55, 930}}, Reserve: 1080, Lands: true, DryAt: 74},
	}
}

func sampleDry() Fuel {
	f := sampleFuel()
	f.To = "Golf"
	f.Failed = Burn{Points: []Burned{{0, 5200}, {20, 2600}, {37, 0}}, Reserve: 1260}
	return f
}

func sampleWaterfall() Waterfall {
	return Waterfall{
		ID: "water", What: "fuel to Foxtrot", Unit: "kg", Healthy: 1480, Failed: 4270,
		Parts: []Part{
			{"Retraction of the landing gear", 1650, 1490}, {"Slats and flaps, both channels of their control", 410, 380},
			{"Cruise above 10,000 ft: cabin pressure", 520, 610}, {"Fan of the left avionics bay", 0, 0}, {"Engine bleed, right side", -90, -60},
		},
	}
}

func sampleSmallParts() Waterfall {
	return Waterfall{
		ID: "small", What: "landing distance on 27 of Foxtrot", Unit: "m", Healthy: 1794, Failed: 2071,
		Parts: []Part{
			{"Ground spoilers 2 and 4", 96, 88}, {"Reverse of the left engine", 42, 40}, {"Anti-skid of the outboard wheels, which also takes the automatic brake away and leaves hand braking", 71, 90},
			{"Idle that stays high", 38, 30}, {"One", 3, 3}, {"Two", 2, 2}, {"Three", 1, 1}, {"Four", 0, 1}, {"Five", 4, 4}, {"Six", -6, -5}, {"Seven", 7, 7}, {"Eight", 8, 8},
		},
	}
}
