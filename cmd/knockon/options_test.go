package main

import (
	"bytes"
	"context"
	"net"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"
	"unicode/utf8"
)

// TestOptions_RefusedWithWhatToWrite: each question that cannot be asked gets a
// sentence of its own that says what to write instead.
func TestOptions_RefusedWithWhatToWrite(t *testing.T) {
	const small = " --book testdata/small"
	said := map[string]string{}
	for line, want := range map[string]string{
		"fail pump_1 --for nan" + small:                                       "knockon: --for: NaN is no length of time: give seconds, such as --for 30",
		"fail pump_1 --for inf" + small:                                       "knockon: --for: +Inf is no length of time",
		"fail pump_1 --for=-3" + small:                                        "knockon: --for: -3 is no length of time",
		"fail pump_1 --at early --when true" + small:                          "knockon: --when: a failure comes at a moment or when something becomes yes: leave out --at or --when",
		"fail pump_1 pump_1" + small:                                          "knockon: fail: pump_1 is named twice: name it once",
		"fail pump_1 --out pump_2,pump_2" + small:                             "knockon: --out: pump_2 is named twice: name it once",
		"fail pump_1 --out pump_1" + small:                                    "knockon: --out: pump_1 is inoperative from the start, so it cannot fail later: name it once",
		"fail pump_1 --act levr=up@early" + small:                             `knockon: --act: no control "levr"; did you mean "lever"?`,
		"fail pump_1 --act lever=middle@early" + small:                        `knockon: --act: no position of lever "middle"; there are: up, down`,
		"fail pump_1 --act lever" + small:                                     "knockon: --act: \"lever\": write control=position@moment, such as gear_lever=down@approach",
		"why hydraulics --fail pump_1" + small:                                `knockon: item: no item "hydraulics"; there are `,
		"why brake --fail pump_1" + small:                                     `knockon: item: no item "brake"; did you mean "brakes"?`,
		"fail pump_1 --width=99999999999" + small:                             "knockon: --width: 99999999999 is too many: give 10000 or fewer, such as --width 100",
		"fail pump_1 --width=-5" + small:                                      "knockon: --width: -5 is too few: give 40 or more, such as --width 100",
		"conflicts --phases 0" + small:                                        "knockon: --phases: 0 is too few: give 1 or more, such as --phases 2",
		"conflicts --more=-1" + small:                                         "knockon: --more: -1 is too few: give 0 or more, such as --more 120",
		"conflicts --within=-1s" + small:                                      "knockon: --within: -1s is over before it begins: give a length of time, such as --within 60s",
		"ways brakes --memory 0" + small:                                      "knockon: --memory: 0 is too few: give 1 or more, such as --memory 900",
		"ways brakes --order=-1" + small:                                      "knockon: --order: -1 is too few: give 0 or more, such as --order 3",
		"ways brakes --risk=-1" + small:                                       "knockon: --risk: -1 is too few: give 0 or more, such as --risk 8",
		"ways brakes brakes" + small:                                          "knockon: function: brakes is named twice: name it once",
		"ways brake" + small:                                                  `knockon: function: no function "brake"; did you mean "brakes"?`,
		"worth pump_list --pairs=-1" + small:                                  "knockon: --pairs: -1 is too few: give 0 or more, such as --pairs 60",
		"worth pump_lits" + small:                                             `knockon: procedure: no procedure "pump_lits"; did you mean "pump_list"?`,
		"crew pump_1 --pace list_s=nan" + small:                               `knockon: --pace: "list_s=nan": write name=number, such as list_s=5`,
		"sweep --order 4" + small:                                             "knockon: --order: a sweep takes 1, 2 or 3 failures together, not 4",
		"sweep --most 0" + small:                                              "knockon: --most: 0 is too few: give 1 or more, such as --most 10",
		"sweep --of pump_1,pump_1" + small:                                    "knockon: --of: pump_1 is named twice: name it once",
		"sweep --phase erly" + small:                                          `knockon: --phase: no phase "erly"; did you mean "early"?`,
		"costs tr_right --most=-1":                                            "knockon: --most: -1 is too few: give 1 or more, such as --most 20",
		"demo --address 8117":                                                 `knockon: --address: "8117" is no address to listen on: write host:port, such as 127.0.0.1:8765`,
		"demo --address 127.0.0.1:99999":                                      `knockon: --address: "127.0.0.1:99999" is no address to listen on`,
		"serve --address 192.0.2.1:8765" + small + " --drills " + t.TempDir(): `knockon: --address: cannot listen on "192.0.2.1:8765"`, // RFC 5737: an address of nobody
	} {
		var stdout, stderr bytes.Buffer
		code := run(strings.Fields(line), &stdout, &stderr)
		if got := stderr.String(); code != exitUsage || !strings.HasPrefix(got, want) || strings.Count(got, "\n") != 1 || stdout.Len() > 0 {
			t.Errorf("$ knockon %s\nexit %d: %s(%d on stdout)want %s", line, code, got, stdout.Len(), want)
		} else if said[got] != "" {
			t.Errorf("%q and %q are refused alike: %s", said[got], line, got)
		} else {
			said[got] = line
		}
	}
}

// TestHelp_ExamplesRun runs every example that a command's help shows. What
// serves pages or would take minutes is only read.
func TestHelp_ExamplesRun(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	write(t, "tree.xml", `<?xml version="1.0"?><opsa-mef><define-fault-tree name="t"><define-gate name="top"><or><basic-event name="a"/><basic-event name="b"/></or></define-gate></define-fault-tree></opsa-mef>`)
	write(t, filepath.Join("my-aircraft", "a.hcl"), "")
	small := filepath.Join(repository(t), "cmd", "knockon", "testdata", "small", "a.hcl")
	text, err := os.ReadFile(small)
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join("my-aircraft", "a.hcl"), string(text))
	n := 0
	for _, command := range []string{"", "demo", "check", "fail", "why", "costs", "crew", "worth", "rescue", "conflicts", "drill", "ways", "sweep", "assess", "serve", "completion", "version"} {
		var help, stderr bytes.Buffer
		if code := run(strings.Fields(command+" --help"), &help, &stderr); code != exitGood {
			t.Fatalf("%s --help: exit %d: %s", command, code, &stderr)
		}
		for _, m := range regexp.MustCompile(`(?m)^ +(knockon [a-z].*)$`).FindAllStringSubmatch(help.String(), -1) {
			n++
			t.Run(m[1], func(t *testing.T) { example(t, m[1]) })
		}
	}
	if n < 20 {
		t.Errorf("only %d examples were found", n)
	}
}

// long are examples that take minutes, or serve until they are stopped.
var long = regexp.MustCompile(`^knockon (demo|serve|drill|conflicts|worth|sweep|assess)`)

func example(t *testing.T, line string) {
	line, file, kept := strings.Cut(line, " > ")
	var stdout, stderr bytes.Buffer
	args := typed(line)[1:]
	if long.MatchString(line) {
		if _, code, done := parse(args, &stdout, &stderr); done || code != 0 {
			t.Errorf("exit %d: %s", code, &stderr)
		}
		return
	}
	if code := run(args, &stdout, &stderr); code != exitGood || stdout.Len() == 0 {
		t.Errorf("exit %d: %s", code, &stderr)
	}
	if kept && file == "" {
		t.Error("it is written nowhere")
	}
}

// typed are the words of a command line as a shell gives them.
func typed(line string) (list []string) {
	for _, m := range regexp.MustCompile(`"((?:[^"\\]|\\.)*)"|(\S+)`).FindAllStringSubmatch(line, -1) {
		list = append(list, strings.ReplaceAll(m[1], `\"`, `"`)+m[2])
	}
	return list
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// repository is the folder of go.mod.
func repository(t *testing.T) string {
	t.Helper()
	root, err := filepath.EvalSymlinks(start)
	if err != nil {
		t.Fatal(err)
	}
	return filepath.Join(root, "..", "..")
}

// start is where the tests were begun.
var start, _ = os.Getwd()

// TestHelp_SaysExitCodes: what the program and the page say of them.
func TestHelp_SaysExitCodes(t *testing.T) {
	var help bytes.Buffer
	run([]string{"--help"}, &help, &help)
	page, err := os.ReadFile(filepath.Join(repository(t), "docs", "commands.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Exit codes", "0 ", "1 ", "2 ", "3 "} {
		if !strings.Contains(help.String(), want) {
			t.Errorf("the help does not say %q", want)
		}
	}
	for line, want := range map[string]int{
		"version": exitGood, "check --book testdata/small": exitGood, "check --book testdata/faulty": exitFinding, "fail pump_1 --book testdata/faulty": exitFinding,
		"fail nothing --book testdata/small": exitUsage, "fly": exitUsage, "check --book nowhere": exitTrouble, "sweep --within 1ns --book testdata/small": exitTrouble,
	} {
		var b bytes.Buffer
		if code := run(strings.Fields(line), &b, &b); code != want {
			t.Errorf("knockon %s: exit %d, want %d: %s", line, code, want, &b)
		}
		if row := "| " + string(rune('0'+want)) + " |"; !bytes.Contains(page, []byte(row)) {
			t.Errorf("the page has no row %q", row)
		}
	}
}

// TestAddresses: one that listens everywhere is said as what others can type.
func TestAddresses(t *testing.T) {
	own := []net.Addr{ip("127.0.0.1/8"), ip("192.168.1.20/24"), ip("169.254.3.4/16"), ip("fe80::1/64"), ip("10.0.0.7/8")}
	everywhere := &net.TCPAddr{IP: net.IPv6unspecified, Port: 8117}
	want := "http://localhost:8117/ http://192.168.1.20:8117/ http://10.0.0.7:8117/"
	if got := strings.Join(addresses(everywhere, own), " "); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := addresses(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 1}, own); len(got) != 1 || got[0] != "http://127.0.0.1:1/" {
		t.Error(got)
	}
	if got := others([]string{"http://localhost:1/", "http://10.0.0.7:1/"}, "drill/"); got != "From other machines: http://10.0.0.7:1/drill/\n" {
		t.Errorf("%q", got)
	}
}

func ip(text string) *net.IPNet {
	at, n, err := net.ParseCIDR(text)
	if err != nil {
		panic(err)
	}
	return &net.IPNet{IP: at, Mask: n.Mask}
}

// TestServe_EndsInGoodOrder: told to end by the system, the program answers what
// it can, closes its port and its drills, and says so with exit code 0. The
// demonstration's address is the last thing that it prints.
func TestServe_EndsInGoodOrder(t *testing.T) {
	stdout, stderr := &screen{ready: make(chan struct{})}, &screen{ready: make(chan struct{})}
	code := make(chan int)
	go func() {
		code <- run([]string{"demo", "--address", "127.0.0.1:0", "--drills", t.TempDir()}, stdout, stderr)
	}()
	select {
	case <-stdout.ready:
	case <-time.After(2 * time.Minute):
		t.Fatal("it does not serve")
	}
	lines := strings.Split(strings.TrimSpace(stdout.String()), "\n")
	last := strings.TrimSpace(lines[len(lines)-1])
	if !strings.HasPrefix(last, "http://127.0.0.1:") || !strings.HasSuffix(last, opening) {
		t.Errorf("the last line is %q", last)
	}
	if err := syscall.Kill(os.Getpid(), syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	select {
	case got := <-code:
		if got != exitGood || !strings.Contains(stderr.String(), "knockon: stopped") {
			t.Errorf("exit %d: %s", got, stderr)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("it does not end")
	}
	host, _, _ := strings.Cut(strings.TrimPrefix(last, "http://"), "/")
	if c, err := (&net.Dialer{Timeout: time.Second}).DialContext(context.Background(), "tcp", host); err == nil {
		_ = c.Close()
		t.Error("its port is still open")
	}
}

// TestWidth_NarrowTerminals: in 40 columns no line of any command is wider, and
// nothing is coloured.
func TestWidth_NarrowTerminals(t *testing.T) {
	t.Setenv("COLUMNS", "40")
	t.Setenv("NO_COLOR", "1")
	lines := []string{"--help", "demo --print", "version", "fail nobody --book testdata/small", "check --book testdata/small"}
	for _, command := range []string{"check", "fail", "why", "costs", "crew", "worth", "rescue", "conflicts", "drill", "ways", "sweep", "assess", "serve", "demo"} {
		lines = append(lines, command+" --help")
	}
	for _, line := range printing() {
		lines = append(lines, strings.ReplaceAll(line, " --json", ""))
	}
	for _, line := range append(lines, "costs tr_right --out tr_left --at cruise --most 3", "why smoke_watch --fail tr_right --out tr_left --at cruise", "fail tr_right --at cruise --costs") {
		var stdout, stderr bytes.Buffer
		if code := run(strings.Fields(line), &stdout, &stderr); code > exitUsage {
			t.Fatalf("$ knockon %s: exit %d: %s", line, code, &stderr)
		}
		text := stdout.String()
		if !strings.HasPrefix(line, "check") {
			text += stderr.String() // a diagnostic shows the line of a book as it is
		}
		for _, l := range strings.Split(text, "\n") {
			if utf8.RuneCountInString(l) > 40 || strings.Contains(l, "\033") {
				t.Errorf("$ knockon %s\n%q", line, l)
				break
			}
		}
	}
}
