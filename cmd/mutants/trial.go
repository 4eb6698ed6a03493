package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

type verdict string

const (
	broken   verdict = "does not compile"
	killed   verdict = "killed"
	late     verdict = "killed by the clock"
	survived verdict = "SURVIVED"
)

type result struct {
	mutant
	order int
	verdict
}

func (r result) String() string { return r.mutant.String() }

// trial is where and how long a mutant is tried.
type trial struct {
	folder string
	limit  time.Duration
}

// run builds the tests of a mutant and runs the quick ones, then the others.
func (t trial) run(m mutant, order int) result {
	r := result{mutant: m, order: order, verdict: broken}
	binary, err := t.build(m, order)
	if err != nil {
		return r
	}
	defer os.Remove(binary)
	r.verdict = survived
	for _, tests := range [][]string{m.quick, m.slow} {
		if len(tests) > 0 && r.verdict == survived {
			r.verdict = t.test(m, binary, tests)
		}
	}
	return r
}

func (t trial) build(m mutant, order int) (binary string, err error) {
	text, err := m.text()
	check(err)
	place, err := filepath.Abs(m.file)
	check(err)
	base := filepath.Join(t.folder, fmt.Sprint(order))
	defer os.Remove(base + ".go")
	defer os.Remove(base + ".json")
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{place: base + ".go"}})
	check(err)
	check(os.WriteFile(base+".go", text, 0o600))
	check(os.WriteFile(base+".json", overlay, 0o600))
	return base + ".test", exec.Command("go", "test", "-c", "-vet=off", "-overlay", base+".json", "-o", base+".test", m.folder).Run()
}

// test runs some tests of a mutant. One that ends otherwise than well is
// noticed, by a test or by the clock: a loop without end is noticed too.
func (t trial) test(m mutant, binary string, tests []string) verdict {
	ctx, stop := context.WithTimeout(context.Background(), t.limit)
	defer stop()
	c := exec.CommandContext(ctx, binary, "-test.failfast", "-test.run", "^("+strings.Join(tests, "|")+")$")
	c.Dir = m.folder
	c.Env = append(os.Environ(), "GOMEMLIMIT=2GiB")
	err := c.Run()
	if errors.Is(ctx.Err(), context.DeadlineExceeded) {
		return late
	}
	if err != nil {
		return killed
	}
	return survived
}

// timed runs the package's tests as they are and parts those under a second
// from the others. Tests that fail without any mutant prove nothing.
func timed(folder string) (quick, slow []string, err error) {
	out, err := exec.Command("go", "test", "-json", "-count=1", folder).Output()
	if err != nil {
		return nil, nil, fmt.Errorf("the tests of %s fail as they are: %w", folder, err)
	}
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		var e struct {
			Action, Test string
			Elapsed      float64
		}
		if err := d.Decode(&e); err != nil {
			return nil, nil, err
		}
		if e.Action != "pass" || e.Test == "" || strings.Contains(e.Test, "/") {
			continue
		}
		if e.Elapsed < 1 {
			quick = append(quick, e.Test)
		} else {
			slow = append(slow, e.Test)
		}
	}
	return quick, slow, nil
}
