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

// why is the reason of a refusal; "" for none.
func why(err error) drill.Why {
	var r *drill.Refusal
	if errors.As(err, &r) {
		return r.Why
	}
	return ""
}

// TestAccept_BoundsAreTheRoles: who takes a new name for every input is as bound as
// before, and takes nothing from the others.
func TestAccept_BoundsAreTheRoles(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{})
	look := drill.Input{Number: 1, At: 60 * book.Second, Who: drill.PilotFlying, Do: drill.Look, ID: d.Build().Indications[0].ID}
	for i := range drill.MostPerSecond {
		look.Client = fmt.Sprint("name ", i)
		if _, err := s.Accept(ctx, look); err != nil {
			t.Fatal(err)
		}
	}
	look.Client, look.At = "one more", 61*book.Second-1
	if _, err := s.Accept(ctx, look); why(err) != drill.TooMany || !strings.Contains(err.Error(), "more than 20 inputs of one seat in a second") {
		t.Errorf("a name more: %v", err)
	}
	look.Who = drill.PilotMonitoring
	if _, err := s.Accept(ctx, look); err != nil {
		t.Errorf("the other pilot: %v", err)
	}
	look.Client, look.Who, look.At = "later", drill.PilotFlying, 61*book.Second
	if _, err := s.Accept(ctx, look); err != nil {
		t.Errorf("a second later: %v", err)
	}
}

// TestAccept_NoSeatUsesADrillUp: a seat that has had its share is refused, the
// others and the end are not.
func TestAccept_NoSeatUsesADrillUp(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{})
	look := drill.Input{Client: "a", Who: drill.Alone, Do: drill.Call, ID: d.Build().Procedures[0].ID}
	for i := range drill.MostOfSeat {
		look.Number, look.At = i+1, book.Time(i)*book.Second/drill.MostPerSecond
		if _, err := s.Accept(ctx, look); err != nil {
			t.Fatal(i, err)
		}
	}
	look.Number, look.At = look.Number+1, look.At+book.Second
	if _, err := s.Accept(ctx, look); why(err) != drill.TooMany || !strings.Contains(err.Error(), "one seat of a drill takes 5000 inputs") {
		t.Errorf("one too many: %v", err)
	}
	other := look
	other.Client, other.Number, other.Who = "b", 1, drill.PilotFlying
	if _, err := s.Accept(ctx, other); err != nil {
		t.Errorf("another seat: %v", err)
	}
	look.Do, look.ID = drill.Finish, ""
	if _, err := s.Accept(ctx, look); err != nil {
		t.Errorf("the end: %v", err)
	}
}

// TestAccept_FlownAnewSoOften: rewinds and failures, each of which flies the whole
// flight again, are bound; but not in a log, where they were accepted.
func TestAccept_FlownAnewSoOften(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{})
	var log bytes.Buffer
	_ = drill.WriteScript(&log, drill.Script{})
	back := drill.Input{Client: "i", Who: drill.Instructor, Do: drill.Rewind}
	for back.Number = 1; back.Number <= drill.MostAnew; back.Number++ {
		if _, err := s.Accept(ctx, back); err != nil {
			t.Fatal(back.Number, err)
		}
		_ = drill.WriteInput(&log, back)
	}
	fail := back
	fail.Do, fail.Strike = drill.Inject, &drill.Strike{What: []string{"gen_left"}}
	for _, in := range []drill.Input{back, fail} {
		if _, err := s.Accept(ctx, in); why(err) != drill.TooMany || !strings.Contains(err.Error(), "300 failures and rewinds") {
			t.Errorf("%s: %v", in.Do, err)
		}
	}
	_ = drill.WriteInput(&log, back)
	again, err := d.Replay(ctx, bytes.NewReader(log.Bytes()))
	if err != nil || len(again.Log()) != drill.MostAnew+1 {
		t.Fatalf("a longer log: %v", err)
	}
	back.Number++
	if _, err := again.Accept(ctx, back); why(err) != drill.TooMany {
		t.Errorf("after it was read: %v", err)
	}
}

// TestFinish_Ends: the instructor, or who is alone, ends a drill wherever the
// flight is. Then nothing is taken but a rewind, which makes it undone.
func TestFinish_Ends(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{})
	number := map[drill.Role]int{}
	do := func(who drill.Role, in drill.Input) error {
		in.Client, in.Number, in.Who, in.At = string(who), number[who]+1, who, s.Now()
		_, err := s.Accept(ctx, in)
		if err == nil {
			number[who]++
		}
		return err
	}
	off, end, on := drill.Input{Do: drill.Move, ID: "gen_left_switch", To: "off"}, drill.Input{Do: drill.Finish}, drill.Input{Do: drill.Clock, Rate: 1}
	for _, who := range []drill.Role{drill.PilotFlying, drill.PilotMonitoring} {
		if err := do(who, end); why(err) != drill.NotAllowed || s.Over() {
			t.Errorf("%s ends it: %v", who, err)
		}
	}
	if err := do(drill.Instructor, on); err != nil {
		t.Fatal(err)
	}
	if err := s.Advance(ctx, 90*book.Second); err != nil {
		t.Fatal(err)
	}
	if err := do(drill.Instructor, end); err != nil || !s.Over() || s.Ended() || s.Rate() != 0 {
		t.Fatalf("the instructor ends it: %v, rate %d", err, s.Rate())
	}
	if v := s.Screen(drill.PilotFlying); !v.Over || v.Ended || v.Held {
		t.Errorf("the screen: %+v", v)
	}
	for who, in := range map[drill.Role]drill.Input{drill.PilotFlying: off, drill.Instructor: on, drill.Alone: end} {
		if err := do(who, in); why(err) != drill.Over || !strings.Contains(err.Error(), "the drill has ended") {
			t.Errorf("%s afterwards: %v", who, err)
		}
	}
	if err := do(drill.Instructor, drill.Input{Do: drill.Rewind, Back: 60 * book.Second}); err != nil || s.Over() {
		t.Fatalf("wound back: %v", err)
	}
	if err := do(drill.Alone, end); why(err) != drill.NotAllowed {
		t.Errorf("who is alone ends what the instructor holds: %v", err)
	}
	if err := errors.Join(do(drill.Instructor, on), do(drill.PilotFlying, off), do(drill.Alone, end)); err != nil || !s.Over() {
		t.Errorf("and ended again: %v", err)
	}
}

// TestRewind_ForgetsFromItsMomentOn, that included; what was done a moment before
// stands.
func TestRewind_ForgetsFromItsMomentOn(t *testing.T) {
	p := small(t, "b")
	p.as(drill.PilotFlying, 9.999, move("left", "off"))
	p.as(drill.PilotFlying, 10, move("right", "off"))
	p.to(20)
	p.as(drill.Instructor, 20, drill.Input{Do: drill.Rewind, Back: p.from + 10*book.Second})
	p.to(30)
	var moved []string
	for _, a := range p.s.Flown().Actions {
		moved = append(moved, a.Control)
	}
	if len(moved) != 1 || moved[0] != "left" {
		t.Errorf("what stands: %v", moved)
	}
}

// TestDebrief_ManyMoves: how much is flown depends on how many controls were
// moved, not on how often.
func TestDebrief_ManyMoves(t *testing.T) {
	flown := map[int]int{}
	for _, n := range []int{6, 600} {
		p := begin(t)
		for i := range n {
			id := []string{"vital_load_switch", "terrain_switch", "gen_right_switch"}[i%3]
			p.at(float64(i)*0.1, move(id, p.otherWay(id)))
		}
		if err := p.s.Advance(context.Background(), p.from+70*book.Second); err != nil {
			t.Fatal(err)
		}
		last := 0
		d, err := p.s.Debrief(context.Background(), func(done, all int) {
			if done != last {
				t.Errorf("%d of %d flights after %d", done, all, last)
			}
			last, flown[n] = done+1, all
		})
		if err != nil || last != flown[n] || len(d.Others) != 3 {
			t.Fatalf("%v; %d flights; %+v", err, last, d.Others)
		}
		if m := d.Others[0]; m.Times != n/3 || len(m.Turns) != min(n/3, 12) || m.More() != m.Times-len(m.Turns) {
			t.Errorf("%d times, %d named, %d more", m.Times, len(m.Turns), m.More())
		}
	}
	if flown[6] != flown[600] || flown[6] < 3 {
		t.Errorf("flights: %v", flown)
	}
}

// otherWay is a position where a control does not stand.
func (p *trainee) otherWay(id string) string {
	stands := p.s.Screen(drill.PilotFlying).Controls
	for i, c := range p.build.Controls { // in the same order
		for _, to := range c.Positions {
			if c.ID == id && stands[i].To != to {
				return to
			}
		}
	}
	p.t.Fatalf("no other way for %s", id)
	return ""
}

// TestDebrief_MovesThatDoTheSame: where either of two moves would have been enough,
// what came of them is told all the same.
func TestDebrief_MovesThatDoTheSame(t *testing.T) {
	p := begin(t)
	p.at(20, move("gen_right_switch", "off"))
	p.at(20.4, move("gen_right_switch", "off"))
	d := p.debrief(600)
	if len(d.Others) != 1 || d.Others[0].Title != "Right generator switch" || d.Others[0].Times != 2 || !strings.Contains(d.Others[0].Text, " lost from ") {
		t.Errorf("%+v", d.Others)
	}
}

// TestDebrief_MovedToWhereItStood: a move that moves nothing is told as such.
func TestDebrief_MovedToWhereItStood(t *testing.T) {
	p := begin(t)
	p.at(20, move("gen_right_switch", "on"))
	d := p.debrief(60)
	if len(d.Others) != 1 || d.Others[0].Text != "the control stood there already" {
		t.Errorf("%+v", d.Others)
	}
}
