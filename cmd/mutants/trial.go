package main

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// test is a test of a package: the processor time it takes, which functions
// with mutants it comes by, and how many mutants it was the one to notice.
type test struct {
	name    string
	takes   time.Duration
	comesBy map[int]bool
	kills   int
}

// learn runs every test of a bundle as it is. Tests that fail without any
// mutant prove nothing.
func (b *bundle) learn(tried *kept) error {
	out, err := b.command(context.Background(), b.binary, "-test.list", ".").Output()
	if err != nil {
		return fmt.Errorf("the tests of %s cannot be listed: %w", b.folder, err)
	}
	seen := filepath.Join(b.temp, flat(b.folder)+".seen")
	for _, name := range strings.Fields(string(out)) {
		if strings.HasPrefix(name, "Benchmark") {
			continue
		}
		os.Remove(seen)
		c := b.command(context.Background(), b.binary, "-test.run", "^"+name+"$")
		c.Env = append(os.Environ(), "MUTANT=-1", "MUTANTS_SEEN="+seen)
		if out, err := c.CombinedOutput(); err != nil {
			return fmt.Errorf("%s of %s fails as it is: %w\n%s", name, b.folder, err, out)
		}
		t := test{name: name, takes: c.ProcessState.UserTime() + c.ProcessState.SystemTime(), comesBy: map[int]bool{}}
		notes, _ := os.ReadFile(seen) // there is none where it comes by nothing
		for _, n := range strings.Fields(string(notes)) {
			var first int
			fmt.Sscan(n, &first)
			t.comesBy[first] = true
		}
		for _, r := range tried.list {
			if r.Folder == b.folder && r.By == name {
				t.kills++
			}
		}
		b.tests = append(b.tests, t)
	}
	return nil
}

func (b *bundle) command(ctx context.Context, binary string, args ...string) *exec.Cmd {
	c := exec.CommandContext(ctx, binary, args...)
	c.Dir = b.folder
	return c
}

// run starts the tests that come by a mutant, one group after the other, until
// one fails.
func (b *bundle) run(m mutant) result {
	if b.broken[m.place] { // by what has changed around it
		return result{mutant: m, Verdict: gone}
	}
	binary, number := b.binary, b.number[m.place]
	if number == 0 {
		var err error
		binary, err = b.buildAlone(m)
		check(err)
		defer os.Remove(binary)
	}
	for _, group := range b.groups(number) {
		if v, by := b.start(binary, number, group); v != survived {
			b.noticed(by)
			return result{mutant: m, Verdict: v, By: by}
		}
	}
	return result{mutant: m, Verdict: survived}
}

func (b *bundle) noticed(by string) {
	b.counting.Lock()
	defer b.counting.Unlock()
	for i, t := range b.tests {
		if t.name == by {
			b.tests[i].kills++
		}
	}
}

// quick are tests that are started together.
const quick = 400 * time.Millisecond

// groups are the tests that come by a mutant: the quick ones together, then
// each of the others alone, first the one that noticed most for its time.
func (b *bundle) groups(number int) (groups [][]test) {
	b.counting.Lock()
	defer b.counting.Unlock()
	var fast, slow []test
	for _, t := range b.tests {
		switch {
		case number > 0 && !t.comesBy[b.first[number]]:
		case t.takes < quick:
			fast = append(fast, t)
		default:
			slow = append(slow, t)
		}
	}
	worth := func(t test) float64 { return float64(1+t.kills) / t.takes.Seconds() }
	slices.SortStableFunc(slow, func(a, b test) int { return cmp.Compare(worth(b), worth(a)) })
	if len(fast) > 0 {
		groups = append(groups, fast)
	}
	for _, t := range slow {
		groups = append(groups, []test{t})
	}
	return groups
}

var failure = regexp.MustCompile(`(?m)^--- FAIL: (\w+)`)

// start runs some tests on a mutant. It is killed by the clock when it takes
// ten times the processor time and ten seconds more: on a busy machine the
// clock on the wall would kill what no test noticed. One that only waits is
// stopped after half an hour. Memory is limited too.
func (b *bundle) start(binary string, number int, tests []test) (v verdict, by string) {
	ctx, stop := context.WithTimeout(context.Background(), 30*time.Minute)
	defer stop()
	limit, names := 10*time.Second, []string{}
	for _, t := range tests {
		limit, names = limit+10*t.takes, append(names, t.name)
	}
	c := b.command(ctx, "sh", "-c", fmt.Sprintf(`ulimit -t %d; ulimit -v 8000000; exec "$@"`, int(limit.Seconds())), "sh",
		binary, "-test.failfast", "-test.timeout=0", "-test.run", "^("+strings.Join(names, "|")+")$")
	c.Env = append(os.Environ(), fmt.Sprint("MUTANT=", number))
	out, err := c.CombinedOutput()
	switch found := failure.FindSubmatch(out); {
	case err == nil:
		return survived, ""
	case err.Error() == "signal: killed" || ctx.Err() != nil:
		return late, names[0]
	case found != nil:
		return killed, string(found[1])
	}
	return killed, names[0]
}
