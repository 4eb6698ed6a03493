package drill_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"knockon/book"
	"knockon/drill"
)

// TestAccept_Refuses: whatever a client sends that cannot be, it is told why in
// words, and the drill is as if it never came.
func TestAccept_Refuses(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	at := 100 * book.Second
	look := drill.Input{Client: "a", Number: 2, At: at, Who: drill.PilotFlying, Do: drill.Look, ID: d.Build().Indications[0].ID}
	with := func(change func(*drill.Input)) drill.Input {
		in := look
		change(&in)
		return in
	}
	for name, c := range map[string]struct {
		in  drill.Input
		why drill.Why
	}{
		"no client":               {with(func(i *drill.Input) { i.Client = "" }), drill.Garbage},
		"number nought":           {with(func(i *drill.Input) { i.Number = 0 }), drill.Garbage},
		"nobody":                  {with(func(i *drill.Input) { i.Who = "captain" }), drill.Garbage},
		"before the flight":       {with(func(i *drill.Input) { i.At = -1 }), drill.Garbage},
		"an endless name":         {with(func(i *drill.Input) { i.ID = strings.Repeat("x", 300) }), drill.Garbage},
		"no such deed":            {with(func(i *drill.Input) { i.Do = "sing" }), drill.Garbage},
		"no such indication":      {with(func(i *drill.Input) { i.ID = "clock" }), drill.Garbage},
		"no such control":         {with(func(i *drill.Input) { i.Do, i.ID, i.To = drill.Move, "gear", "up" }), drill.Garbage},
		"no such position":        {with(func(i *drill.Input) { i.Do, i.ID, i.To = drill.Move, "gear_lever", "half" }), drill.Garbage},
		"no such list":            {with(func(i *drill.Input) { i.Do, i.ID = drill.Call, "list" }), drill.Garbage},
		"a list not in hand":      {with(func(i *drill.Input) { i.Do, i.ID, i.Step = drill.Tick, "left_generator_off", "1" }), drill.Garbage},
		"to no leg there is":      {with(func(i *drill.Input) { i.Do, i.ID, i.To = drill.TurnTo, "", "fly home" }), drill.Garbage},
		"turned later":            {with(func(i *drill.Input) { i.Do, i.ID, i.To = drill.TurnTo, "", "land @ cruise" }), drill.Garbage},
		"to no field there is":    {with(func(i *drill.Input) { i.Do, i.ID, i.To = drill.TurnTo, "", "divert QXXX" }), drill.NotFlown},
		"before an approach":      {with(func(i *drill.Input) { i.Do, i.ID, i.To = drill.TurnTo, "", "go_around" }), drill.NotFlown},
		"turned after the end":    {with(func(i *drill.Input) { i.Do, i.ID, i.To, i.At = drill.TurnTo, "", "land", 1e6*book.Second }), drill.Over},
		"a number left out":       {with(func(i *drill.Input) { i.Number = 3 }), drill.OutOfOrder},
		"a number used otherwise": {with(func(i *drill.Input) { i.Number, i.ID = 1, d.Build().Indications[1].ID }), drill.OutOfOrder},
		"the past":                {with(func(i *drill.Input) { i.At = at - 1 }), drill.Late},
		"after the end":           {with(func(i *drill.Input) { i.At = 1e6 * book.Second }), drill.Over},
		"a trainee injects":       {with(func(i *drill.Input) { i.Do, i.Strike = drill.Inject, &drill.Strike{What: []string{"gen_left"}} }), drill.NotAllowed},
		"a trainee winds back":    {with(func(i *drill.Input) { i.Do = drill.Rewind }), drill.NotAllowed},
		"half of two stops":       {with(func(i *drill.Input) { i.Do, i.Rate = drill.Clock, 0 }), drill.NotAllowed},
		"too fast":                {with(func(i *drill.Input) { i.Who, i.Do, i.Rate = drill.Instructor, drill.Clock, 3 }), drill.Garbage},
		"nothing fails":           {with(func(i *drill.Input) { i.Who, i.Do, i.Strike = drill.Instructor, drill.Inject, &drill.Strike{} }), drill.Garbage},
		"nothing at all fails":    {with(func(i *drill.Input) { i.Who, i.Do = drill.Instructor, drill.Inject }), drill.Garbage},
		"no such failure": {with(func(i *drill.Input) {
			i.Who, i.Do, i.Strike = drill.Instructor, drill.Inject, &drill.Strike{What: []string{"gen_lft"}}
		}), drill.Garbage},
		"for less than nothing": {with(func(i *drill.Input) {
			i.Who, i.Do, i.Strike = drill.Instructor, drill.Inject, &drill.Strike{What: []string{"gen_left"}, ForS: -1}
		}), drill.Garbage},
		"into the future": {with(func(i *drill.Input) { i.Who, i.Do, i.Back = drill.Instructor, drill.Rewind, at+1 }), drill.Garbage},
	} {
		s := open(t, d, drill.Script{})
		first := look
		first.Number = 1
		if _, err := s.Accept(ctx, first); err != nil {
			t.Fatal(err)
		}
		before := screens(t, s)
		_, err := s.Accept(ctx, c.in)
		var r *drill.Refusal
		if !errors.As(err, &r) || r.Why != c.why || r.Text == "" {
			t.Errorf("%s: %v, want %s", name, err, c.why)
		}
		if after := screens(t, s); after != before || len(s.Log()) != 1 {
			t.Errorf("%s: the drill has changed", name)
		}
	}
}

// TestAccept_TheSameTwice: an input that comes again is acknowledged and changes
// nothing, however late.
func TestAccept_TheSameTwice(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{})
	in := drill.Input{Client: "a", Number: 1, At: 90 * book.Second, Who: drill.Alone, Do: drill.Move, ID: "gen_left_switch", To: "off"}
	first, err := s.Accept(ctx, in)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Advance(ctx, 150*book.Second); err != nil {
		t.Fatal(err)
	}
	before := screens(t, s)
	in.At = 150 * book.Second
	again, err := s.Accept(ctx, in)
	if err != nil || !again.Again || again.Place != first.Place || again.At != first.At || screens(t, s) != before || len(s.Log()) != 1 {
		t.Errorf("%+v, %v", again, err)
	}
}

// TestAccept_AThousandASecond: of a flood some are taken and the rest refused;
// other clients are not disturbed.
func TestAccept_AThousandASecond(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{})
	taken, number := 0, 1
	for i := range 1000 {
		in := drill.Input{Client: "flood", Number: number, At: 60*book.Second + book.Time(i)*book.Second/1000, Who: drill.PilotFlying, Do: drill.Look, ID: d.Build().Indications[i%9].ID}
		_, err := s.Accept(ctx, in)
		var r *drill.Refusal
		switch {
		case err == nil:
			taken++
			number++
		case !errors.As(err, &r) || r.Why != drill.TooMany:
			t.Fatal(err)
		}
	}
	if taken != drill.MostPerSecond {
		t.Errorf("%d taken", taken)
	}
	calm := drill.Input{Client: "calm", Number: 1, At: s.Now(), Who: drill.PilotMonitoring, Do: drill.Call, ID: "left_generator_off"}
	if _, err := s.Accept(ctx, calm); err != nil {
		t.Errorf("the other pilot: %v", err)
	}
}

// TestAccept_Held: while the instructor holds the clock trainees do nothing; a
// pause of one's own is no hindrance.
func TestAccept_Held(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{})
	numbers := map[drill.Role]int{}
	do := func(who drill.Role, in drill.Input) error {
		in.Client, in.Number, in.Who, in.At = string(who), numbers[who]+1, who, s.Now()
		_, err := s.Accept(ctx, in)
		if err == nil {
			numbers[who]++
		}
		return err
	}
	off := drill.Input{Do: drill.Move, ID: "gen_left_switch", To: "off"}
	if err := do(drill.Alone, off); err != nil || s.Rate() != 0 {
		t.Errorf("before it is let go, at rate %d: %v", s.Rate(), err)
	}
	if err := do(drill.Alone, drill.Input{Do: drill.Clock, Rate: 4}); err != nil || s.Rate() != 4 {
		t.Errorf("alone, faster: rate %d, %v", s.Rate(), err)
	}
	if err := do(drill.Instructor, drill.Input{Do: drill.Clock, Rate: 0}); err != nil {
		t.Fatal(err)
	}
	for _, in := range []drill.Input{off, {Do: drill.Clock, Rate: 1}} {
		if err := do(drill.Alone, in); err == nil {
			t.Errorf("%s while it is held", in.Do)
		}
	}
	if err := do(drill.Instructor, drill.Input{Do: drill.Inject, Strike: &drill.Strike{What: []string{"gen_left"}}}); err != nil || s.Rate() != 0 {
		t.Errorf("the instructor, at rate %d: %v", s.Rate(), err)
	}
	if err := do(drill.Instructor, drill.Input{Do: drill.Clock, Rate: 1}); err != nil {
		t.Fatal(err)
	}
	if err := do(drill.Alone, off); err != nil {
		t.Errorf("let go again: %v", err)
	}
}

func TestReplay_ReadsWhatWasAcknowledged(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	script := drill.Script{Title: "T", Fail: []drill.Strike{{What: []string{"gen_left"}, At: "climb", ForS: 40, Resettable: true}}}
	in := drill.Input{Client: "a", Number: 1, At: 90 * book.Second, Who: drill.Alone, Do: drill.Move, ID: "gen_left_switch", To: "off"}
	var log bytes.Buffer
	if err := drill.WriteScript(&log, script); err != nil {
		t.Fatal(err)
	}
	if err := drill.WriteInput(&log, in); err != nil {
		t.Fatal(err)
	}
	whole := log.String()
	s, err := d.Replay(ctx, strings.NewReader(whole+`{"client":"a","number":2,"at_u`)) // torn
	if err != nil || len(s.Log()) != 1 || s.Script().Fail[0].ForS != 40 {
		t.Fatalf("%v", err)
	}
	for name, text := range map[string]string{
		"nothing":                     "",
		"no script":                   "hello\n",
		"an unknown word":             `{"fail":[],"colour":"red"}` + "\n",
		"a failure that is not there": `{"fail":[{"what":["gen"]}]}` + "\n",
		"a moment that is not there":  `{"fail":[{"what":["gen_left"],"at":"noon"}]}` + "\n",
		"a flight that is not there":  whole + "{}\n",
		"something behind":            whole + strings.TrimSuffix(whole[strings.Index(whole, "\n")+1:], "\n") + " more\n",
		"twice the same":              whole + whole[strings.Index(whole, "\n")+1:],
	} {
		if _, err := d.Replay(ctx, strings.NewReader(text)); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestNewDeck_SaysWhatIsMissing(t *testing.T) {
	b, _ := book.Load(context.Background(), bookOf(t))
	for _, c := range [][2]string{{"tenth_series", ""}, {"", "long_hop"}} {
		if _, err := drill.NewDeck(b, c[0], c[1], nil); err == nil || !strings.Contains(err.Error(), c[0]+c[1]) {
			t.Errorf("%v: %v", c, err)
		}
	}
}

// FuzzReadInput: no text makes the reader or the session panic.
func FuzzReadInput(f *testing.F) {
	d := deck(f, "short_hop")
	for _, text := range []string{`{"client":"a","number":1,"who":"PF","do":"look","id":"x"}`, `{"client":"a","number":1,"who":"instructor","do":"inject","strike":{"what":["gen_left"]}}`, `[]`, `{"at_us":1e99}`, ``} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, line []byte) {
		in, err := drill.ReadInput(line)
		if err != nil {
			return
		}
		s := open(t, d, drill.Script{})
		if _, err := s.Accept(context.Background(), in); err != nil {
			var r *drill.Refusal
			if !errors.As(err, &r) {
				t.Errorf("%s: %v", line, err)
			}
		}
		_ = fmt.Sprint(s.Screen(in.Who))
	})
}

// TestReplay_LogsThatWereKept: a log from before is read to its end, and gives the
// same lines again; what only other scenarios can hold is refused in a script.
func TestReplay_LogsThatWereKept(t *testing.T) {
	const kept = `{"title":"T","flight":"northern_link","fail":[{"what":["gen_left"],"at":"climb","for_s":40,"resettable":true}],"out":["tr_left"]}
{"client":"a","number":1,"at_us":1000000,"who":"both","do":"look","id":"%s"}
{"client":"i","number":1,"at_us":2000000,"who":"instructor","do":"inject","strike":{"what":["gen_right"],"at":"no moment"}}
`
	d := deck(t, "northern_link")
	log := strings.Replace(kept, "%s", d.Build().Indications[0].ID, 1)
	s, err := d.Replay(t.Context(), strings.NewReader(log))
	if err != nil || len(s.Log()) != 2 {
		t.Fatal(err)
	}
	var again bytes.Buffer
	_ = drill.WriteScript(&again, s.Script())
	for _, in := range s.Log() {
		_ = drill.WriteInput(&again, in)
	}
	if again.String() != log {
		t.Errorf("%s\nis written as\n%s", log, &again)
	}
	for _, bad := range []string{`{"fail":[{"what":["gen_left"],"when":"on_ground"}]}`, `{"set":["gear_lever=down"]}`, `{"act":["gear_lever=down"]}`, `{"fail":[{"what":["gen_left"],"at":"clim"}]}`} {
		if _, err := d.Replay(t.Context(), strings.NewReader(bad+"\n")); err == nil || !strings.Contains(err.Error(), string(drill.Garbage)) {
			t.Errorf("%s: %v", bad, err)
		}
	}
}

// TestReplay_ALineMayBeAMegabyteLong, and no longer; what nobody waits for any more
// is told as such.
func TestReplay_ALineMayBeAMegabyteLong(t *testing.T) {
	d := deck(t, "short_hop")
	for size, want := range map[int]string{1 << 20: "", 1<<20 + 1: "it is too long"} {
		line := `{"title":"T"}`
		_, err := d.Replay(t.Context(), strings.NewReader(line+strings.Repeat(" ", size-len(line)-1)+"\n"))
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%d bytes: %v", size, err)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := d.Open(ctx, drill.Script{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// TestAccept_AnotherFailureUnderTheSameNumber is another input, in whatever it
// differs.
func TestAccept_AnotherFailureUnderTheSameNumber(t *testing.T) {
	s := open(t, deck(t, "short_hop"), drill.Script{})
	in := drill.Input{Client: "i", Number: 1, At: 60 * book.Second, Who: drill.Instructor, Do: drill.Inject, Strike: &drill.Strike{What: []string{"gen_left"}, ForS: 40}}
	if _, err := s.Accept(t.Context(), in); err != nil {
		t.Fatal(err)
	}
	same := *in.Strike
	for name, k := range map[string]*drill.Strike{
		"": &same, "what": {What: []string{"gen_right"}, ForS: 40}, "how long": {What: []string{"gen_left"}, ForS: 41},
		"whether for good": {What: []string{"gen_left"}, ForS: 40, Resettable: true}, "when": {What: []string{"gen_left"}, ForS: 40, At: "climb"}, "nothing": nil,
	} {
		in.Strike = k
		if ack, err := s.Accept(t.Context(), in); (err == nil && ack.Again) != (name == "") || name != "" && why(err) != drill.OutOfOrder {
			t.Errorf("%s: %v", name, err)
		}
	}
}
