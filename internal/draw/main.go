// Command draw draws scenarios of the demonstration by chance and prints the points of
// each, so that a person can judge whether they are worth teaching. The same seed draws
// the same scenarios.
//
// Start reading at draw.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/say"
	"knockon/scenario"
)

func main() {
	seed := flag.Uint64("seed", 1, "what the draw begins with")
	many := flag.Int("n", 40, "how many scenarios")
	flag.Parse()
	if err := show(context.Background(), os.Stdout, *seed, *many); err != nil {
		fmt.Fprintln(os.Stderr, "draw:", err)
		os.Exit(1)
	}
}

// show answers what is drawn and writes it down.
func show(ctx context.Context, w io.Writer, seed uint64, many int) error {
	b, err := corvane.Load()
	if err != nil {
		return err
	}
	ground, err := islands.Read()
	if err != nil {
		return err
	}
	desk := ask.NewDesk(b).Over(ground)
	for i, q := range draw(b, seed, many) {
		a, err := desk.Answer(ctx, q)
		if err != nil {
			return fmt.Errorf("scenario %d, %v: %w", i+1, q, err)
		}
		if err := write(w, i+1, a); err != nil {
			return err
		}
	}
	return nil
}

// width of a line of what is printed.
const width = 110

// write writes one scenario with its points.
func write(w io.Writer, number int, a *ask.Answer) error {
	p, v := say.NewPage(width), a.View()
	p.Gap()
	p.Paragraph(fmt.Sprintf("%d. ", number), strings.Join(a.Question.Fail[0].What, " ")+a.Question.Options())
	p.Paragraph("", v.Heading)
	p.Paragraph("", v.Ends+" "+v.Lead)
	for i, x := range v.Worth.Points {
		p.Paragraph(fmt.Sprintf("%d  ", i+1), "["+x.Kind+"] "+x.Text)
	}
	p.Paragraph("", v.Worth.Nothing)
	_, err := io.WriteString(w, p.String())
	return err
}

// draw draws scenarios: of five, two have one failure, two have two, and one has an event;
// every third begins with something inoperative that a list of deferrals lets go.
func draw(b *book.Book, seed uint64, many int) (list []ask.Question) {
	rng := rand.New(rand.NewPCG(seed, 40))
	for i := range many {
		v := b.Variants[rng.IntN(len(b.Variants))].ID
		build, _ := b.Build(v)
		k := scenario.Strike{At: moment(rng, build)}
		switch i % 5 {
		case 0, 1:
			k.What = []string{part(rng, build)}
		case 2, 3:
			k.What = []string{part(rng, build), part(rng, build)}
		case 4:
			k.What = []string{build.Events[rng.IntN(len(build.Events))].ID}
		}
		q := ask.Question{Fail: []scenario.Strike{k}, Build: v, Flight: build.Flights[rng.IntN(len(build.Flights))].ID}
		if i%3 == 0 {
			q.Out = []string{out(rng, build)}
		}
		list = append(list, q)
	}
	return list
}

// part is a unit, or a way in which one fails.
func part(rng *rand.Rand, b *book.Build) string {
	u := b.Units[rng.IntN(len(b.Units))]
	if n := len(u.Faults); n > 0 && rng.IntN(2) == 0 {
		return u.ID + "." + u.Faults[rng.IntN(n)].ID
	}
	return u.ID
}

// out is an item of a deferral.
func out(rng *rand.Rand, b *book.Build) string {
	d := b.Deferrals[rng.IntN(len(b.Deferrals))]
	return d.Items[rng.IntN(len(d.Items))].String()
}

// moment is up to a minute into a phase, before the flight is as good as over.
func moment(rng *rand.Rand, b *book.Build) string {
	const late = 2 // phases at the end: the landing roll and the taxi in
	p := b.Phases[rng.IntN(len(b.Phases)-late)]
	return book.Moment{Phase: p.ID, Offset: book.AtSeconds(float64(10 * rng.IntN(7)))}.String()
}
