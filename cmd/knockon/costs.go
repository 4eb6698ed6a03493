package main

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"knockon/airfield"
	"knockon/ask"
	"knockon/costs"
	"knockon/demo"
	"knockon/figure/bill"
	"knockon/figure/face"
	"knockon/figure/png"
	"knockon/region"
	"knockon/say"
)

// regionFlags choose the airfields and what the weather is like.
type regionFlags struct {
	Airfields  string `help:"Folder with airports.csv and runways.csv, and perhaps weather.txt, conditions.csv and aloft.txt. Default: the folder airfields in the book's own; of the demonstration, its islands." placeholder:"DIR" type:"path"`
	Weather    string `help:"File of aerodrome reports (METAR)." placeholder:"FILE" type:"path"`
	Conditions string `help:"File of runway conditions: ident,runway end,condition." placeholder:"FILE" type:"path"`
	Aloft      string `help:"File of winds aloft: level and degrees/knots." placeholder:"FILE" type:"path"`
}

// ownFields is the folder in a book's own folder that holds its airfields.
const ownFields = "airfields"

// errNoFields says that a book has no airfields: those of the demonstration are for
// its own book alone.
var errNoFields = &ask.Trouble{Part: "airfields", Text: fmt.Sprintf("this book has no airfields of its own: give a folder that holds %s and %s, or put one called %s into the book's folder", airfield.AirportsFile, airfield.RunwaysFile, ownFields)}

// region reads the airfields: those that are named, or else the book's own. What
// could not be used is told and left out.
func (f regionFlags) region(o *out, b bookFlag) (*region.Region, error) {
	files, dir, err := f.fields(b)
	if err != nil {
		return nil, err
	}
	list, problems, err := airfield.ReadFS(files, ".")
	if err != nil {
		return nil, fmt.Errorf("the airfields of %s: %w", dir, err)
	}
	if text := problems.String(); text != "" {
		fmt.Fprintln(o.stderr, strings.TrimRight(text, "\n"))
	}
	texts, err := f.texts(files)
	if err != nil {
		return nil, err
	}
	g, told := region.New(list, texts[0], texts[1], texts[2])
	for _, t := range told {
		fmt.Fprintln(o.stderr, t)
	}
	return g, nil
}

// fields is the folder of the airfields, and what it is called.
func (f regionFlags) fields(b bookFlag) (fs.FS, string, error) {
	dir := f.Airfields
	switch {
	case dir == "" && b.Book == "":
		return demo.Region(), "the demonstration's islands", nil
	case dir == "":
		dir = filepath.Join(b.Book, ownFields)
		if _, err := os.Stat(dir); err != nil {
			return nil, "", errNoFields
		}
	}
	info, err := os.Stat(dir)
	if err != nil || !info.IsDir() {
		return nil, "", fmt.Errorf("no folder of airfields at %s: give one that holds %s and %s", dir, airfield.AirportsFile, airfield.RunwaysFile)
	}
	return os.DirFS(dir), dir, nil
}

// texts are the reports, the runway conditions and the winds aloft.
func (f regionFlags) texts(files fs.FS) (texts [3]string, err error) {
	for i, t := range []struct{ flag, name string }{{f.Weather, "weather.txt"}, {f.Conditions, "conditions.csv"}, {f.Aloft, "aloft.txt"}} {
		if texts[i], err = textOf(files, t.flag, t.name); err != nil {
			return texts, err
		}
	}
	return texts, nil
}

// digest is a print of all that the flags bring in; "" where there are no airfields.
func (f regionFlags) digest(b bookFlag) (string, error) {
	files, _, err := f.fields(b)
	if errors.Is(err, errNoFields) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	texts, err := f.texts(files)
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	for _, name := range []string{airfield.AirportsFile, airfield.RunwaysFile} {
		text, err := textOf(files, "", name)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(sum, "%d\n%s", len(text), text)
	}
	fmt.Fprintf(sum, "%q", texts)
	return fmt.Sprintf("%x", sum.Sum(nil)), nil
}

// desk is one whose flights can go elsewhere: over the airfields that are named,
// or with the demonstration over its own.
func (f regionFlags) over(o *out, from bookFlag) (*ask.Desk, error) {
	desk, err := from.desk(o)
	if err != nil {
		return nil, err
	}
	g, err := f.region(o, from)
	switch {
	case errors.Is(err, errNoFields):
		return desk, nil
	case err != nil:
		return nil, err
	}
	return desk.Over(g), nil
}

// textOf reads a file that is named, or one of the folder, which need not be there.
func textOf(files fs.FS, flag, name string) (string, error) {
	if flag != "" {
		b, err := os.ReadFile(flag)
		if err != nil {
			return "", fmt.Errorf("cannot read %s: %v", flag, reason(err))
		}
		return string(b), nil
	}
	b, err := fs.ReadFile(files, name)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	return string(b), err
}

func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// priceFlags are what is asked of the costs.
type priceFlags struct {
	Turn    string `help:"When the crew turn: a moment like --at. Default: when it fails, or a minute after lift-off where that is on the ground." placeholder:"MOMENT"`
	Reserve string `help:"Rule of the final reserve: european, icao, us-domestic, us-flag, us-ifr and more. Default: european." placeholder:"RULE"`
	Most    int    `help:"Airfields at most, the nearest." default:"50" placeholder:"N"`
}

func (f priceFlags) price() ask.Price {
	return ask.Price{Turn: f.Turn, Rule: f.Reserve, Most: f.Most}
}

type costsCommand struct {
	What []string `arg:"" help:"What fails: units, unit.fault, or events of the book." name:"what"`
	bookFlag
	worldFlags
	priceFlags
	To     string `help:"What each loss adds on the way to one airfield, by its ident." placeholder:"IDENT"`
	Until  bool   `help:"Until when each airfield is still good, if the flight goes on meanwhile."`
	Map    string `help:"Write the map to a file, .svg or .png." placeholder:"FILE" type:"path"`
	Roll   string `help:"With --to: write the landing roll to a file." placeholder:"FILE" type:"path"`
	Burn   string `help:"With --to: write the fuel over time to a file." placeholder:"FILE" type:"path"`
	Steps  string `help:"With --to: write what each loss adds to a file." placeholder:"FILE" type:"path"`
	Adding string `help:"With --steps: what it adds up, fuel, time or runway. Default: fuel." placeholder:"WHAT"`
	JSON   bool   `help:"Print as JSON."`
}

func (c *costsCommand) Help() string {
	return `For every airfield: time and fuel to go there now, the runway that it takes to stop, what runs out on
the way, and whether it is still good; for the aircraft as it is and with nothing failed.

  knockon costs tr_right --out tr_left --at "climb + 120 s"
  knockon costs tr_right --out tr_left --at "climb + 120 s" --to QSBR --roll roll.svg --steps fuel.png
  knockon costs gear_valve --at lift_off --turn cruise --reserve us-flag --json`
}

func (c *costsCommand) Run(o *out) error {
	a, err := c.answer(o, c.bookFlag, c.What, atLeast("most", c.Most, 1, 20), c.checkFiles())
	if err != nil {
		return err
	}
	g, err := c.ground(o, c.bookFlag, a)
	if err != nil {
		return err
	}
	priced, err := a.Costs(o, g, c.price())
	if err != nil {
		return err
	}
	if c.Map != "" {
		failed, healthy, err := priced.Boundaries(o)
		if err != nil {
			return err
		}
		if err := writePicture(c.Map, bill.Map(priced, failed, healthy).SVG()); err != nil {
			return err
		}
	}
	v := priced.View(a.Ledger.View().Asked)
	switch {
	case c.To != "" && c.Until:
		return wrong("until", "it is worked out for every airfield: leave out --to or --until")
	case c.To != "":
		return c.one(o, priced)
	case c.Until:
		return c.until(o, a, g, priced)
	case c.JSON:
		return printJSON(o, v)
	}
	return o.lay(func(w io.Writer) error { return costs.WriteText(w, v) })
}

// checkFiles finds pictures that need an airfield, or have no kind.
func (c *costsCommand) checkFiles() error {
	for _, p := range []struct {
		flag, file string
		needsTo    bool
	}{{"map", c.Map, false}, {"roll", c.Roll, true}, {"burn", c.Burn, true}, {"steps", c.Steps, true}} {
		switch ext := strings.ToLower(filepath.Ext(p.file)); {
		case p.file == "":
		case p.needsTo && c.To == "":
			return &ask.Trouble{Part: p.flag, Text: "this picture is of one airfield: say which with --to IDENT"}
		case ext != ".svg" && ext != ".png":
			return &ask.Trouble{Part: p.flag, Text: fmt.Sprintf("%s: a picture's file ends in .svg or .png", filepath.Base(p.file))}
		}
	}
	return c.checkAdding()
}

// checkAdding finds a sum that is none, or that nothing shows.
func (c *costsCommand) checkAdding() error {
	sums := []string{"fuel", "time", "runway"}
	switch {
	case c.Adding == "":
		c.Adding = sums[0]
	case !slices.Contains(sums, c.Adding):
		return &ask.Trouble{Part: "adding", Text: say.No("sum", c.Adding, sums)}
	case c.Steps == "":
		return &ask.Trouble{Part: "adding", Text: "this is what the picture of --steps adds up: say where that goes with --steps FILE"}
	}
	return nil
}

// one prices the way to one airfield in detail.
func (c *costsCommand) one(o *out, priced *costs.Costs) error {
	ident := strings.ToUpper(c.To)
	attribution, ok, err := priced.Attribute(o, ident)
	if err != nil {
		return err
	}
	if !ok {
		return &ask.Trouble{Part: "to", Text: fmt.Sprintf("%q is not among the airfields that were looked at: %s", c.To, idents(priced))}
	}
	v := attribution.View()
	if err := c.pictures(priced, attribution, v); err != nil {
		return err
	}
	if c.JSON {
		return printJSON(o, v)
	}
	return o.lay(func(w io.Writer) error { return costs.WriteParts(w, v) })
}

func idents(priced *costs.Costs) string {
	var list []string
	for _, p := range priced.Places {
		list = append(list, p.Airfield.Ident)
	}
	return strings.Join(list, ", ")
}

func (c *costsCommand) pictures(priced *costs.Costs, a *costs.Attribution, v *costs.AttributionView) error {
	if c.Roll != "" {
		r, ok := bill.Roll(&a.Place)
		if !ok {
			return &ask.Trouble{Part: "roll", Text: "nobody lands there: the flight ends before it"}
		}
		if err := writePicture(c.Roll, r.SVG()); err != nil {
			return err
		}
	}
	if c.Burn != "" {
		if err := writePicture(c.Burn, bill.Fuel(priced, &a.Place).SVG()); err != nil {
			return err
		}
	}
	if c.Steps != "" {
		w, _ := bill.Steps(v, c.Adding)
		return writePicture(c.Steps, w.SVG())
	}
	return nil
}

// pngScale is pixels per point of a PNG file: sharp in print.
const pngScale = 3

// writePicture writes a picture as the kind of file that its name says.
func writePicture(file, svg string) error {
	if strings.ToLower(filepath.Ext(file)) == ".svg" {
		return fileError(file, os.WriteFile(file, []byte(face.Alone(svg)), 0o644))
	}
	f, err := os.Create(file)
	if err != nil {
		return fileError(file, err)
	}
	return fileError(file, errors.Join(png.Write(f, svg, pngScale), f.Close()))
}

func fileError(file string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("cannot write %s: %v", file, reason(err))
}

// until prints the last moment at which each airfield is good.
func (c *costsCommand) until(o *out, a *ask.Answer, g *region.Region, priced *costs.Costs) error {
	b := newBar(o, "until when")
	list, err := a.When(o, g, priced)
	b.clear()
	if err != nil {
		return err
	}
	v := priced.UntilView(a.Ledger.View().Asked, list)
	if c.JSON {
		return printJSON(o, v)
	}
	return o.lay(func(w io.Writer) error { return costs.WriteUntil(w, v) })
}

// failCosts prints the costs under a ledger.
// ground is what an answer's flight goes over, or else the airfields of the flags.
func (f worldFlags) ground(o *out, from bookFlag, a *ask.Answer) (*region.Region, error) {
	if a.Ground != nil {
		return a.Ground, nil
	}
	return f.region(o, from)
}

func (c *failCommand) costs(o *out, a *ask.Answer) error {
	g, err := c.ground(o, c.bookFlag, a)
	if err != nil {
		return err
	}
	priced, err := a.Costs(o, g, ask.Price{})
	if err != nil {
		return err
	}
	fmt.Fprintln(o.stdout)
	return o.lay(func(w io.Writer) error {
		return costs.WriteText(w, priced.View("What it costs: "+a.Ledger.View().Asked))
	})
}
