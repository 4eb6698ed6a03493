package main

import "time"

// page is one page of the demonstration.
type page struct {
	name  string
	path  string
	until string        // what shows that it is there
	more  time.Duration // what other runs need to come into their places
}

func (p page) rest() time.Duration { return time.Second + p.more }

const asked = "fail=tr_right&out=tr_left&at=climb%2B120s"

var pages = []page{
	{name: "front", path: "/", until: "main h1", more: 4 * time.Second},
	{name: "find", path: "/find?q=both+generators+in+the+climb", until: "main h1"},
	{name: "answer", path: "/?" + asked, until: ".group .row", more: 12 * time.Second},
	{name: "beside", path: "/beside?" + asked + "&other=out%3Dnone", until: "main h1"},
	{name: "snapshot", path: "/snapshot?" + asked + "&moment=%2B5:00", until: "main h1"},
	{name: "vary", path: "/vary?" + asked, until: "main h1"},
	{name: "crew", path: "/crew?" + asked, until: "main h1"},
	{name: "alike", path: "/alike?fail=tr_right&at=climb%2B120s", until: "main h1"},
	{name: "rescue", path: "/rescue?" + asked + "&row=loss-bay_cooling", until: "main h1"},
	{name: "costs", path: "/costs?" + asked, until: "main table"},
	{name: "handout", path: "/handout?" + asked, until: "main"},
	{name: "dispatch", path: "/dispatch", until: "main h1"},
	{name: "sweep", path: "/sweep", until: "main h1"},
	{name: "assess", path: "/assess", until: "main h1"},
	{name: "ways", path: "/ways", until: "main h1"},
	{name: "drill", path: "/drill/", until: "main h1"},
}
