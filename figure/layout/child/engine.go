// Package child turns a graph into a plan with the graph library, which runs
// in a child process: the library is not safe for concurrent use, cannot be
// stopped, and can end the process it runs in.
//
// Invariant: Place always gives a plan, within its time limit; where the child
// fails, is too slow, or the graph is too big, it is layout.Layered's.
//
// Start reading at Engine.Place. The child's side is package dot.
package child

import (
	"bufio"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"time"

	"knockon/figure/layout"
)

// Limits. The library took 50 ms for 150 boxes and more than minutes for 1,500.
const (
	mostBoxes = 150
	mostCost  = 2 * time.Second  // for one plan
	startCost = 10 * time.Second // more for the first: the library compiles itself
	mostKept  = 512              // plans
	mostFails = 3                // of the child in a row, until it is left alone
)

// Engine places graphs. The zero value has no child and uses layout.Layered.
// It may be used from many goroutines, which take turns.
type Engine struct {
	command []string

	cost, first time.Duration // limits: for one plan, and more for the first

	mu    sync.Mutex
	kept  map[string]layout.Plan // by the graph's DOT text
	work  *worker
	fails int
}

// New returns an engine whose child is started by a command, such as the
// program itself with the word for its layout child, when it is first needed.
func New(command ...string) *Engine {
	return &Engine{command: command, cost: mostCost, first: startCost}
}

// Close ends the child.
func (e *Engine) Close() {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.stop()
}

// Place places a graph, which must pass its Check. The error says why the plan is
// not the graph library's; the plan is good all the same.
func (e *Engine) Place(ctx context.Context, g layout.Graph) (layout.Plan, error) {
	if e == nil || len(e.command) == 0 {
		return layout.Layered(g), nil
	}
	plan, err := e.ask(ctx, g)
	if err != nil {
		return layout.Layered(g), err
	}
	return plan, nil
}

var (
	errTooBig   = fmt.Errorf("layout: more than %d boxes; placed in a plain way", mostBoxes)
	errGivenUp  = fmt.Errorf("layout: the child failed %d times in a row and is left alone", mostFails)
	errTooSlow  = errors.New("layout: the graph library took too long")
	errNoAnswer = errors.New("layout: the child ended")
)

func (e *Engine) ask(ctx context.Context, g layout.Graph) (layout.Plan, error) {
	if len(g.Boxes) > mostBoxes {
		return layout.Plan{}, errTooBig
	}
	dot := g.DOT()
	e.mu.Lock()
	defer e.mu.Unlock()
	if plan, ok := e.kept[dot]; ok {
		return plan, nil
	}
	if e.fails >= mostFails {
		return layout.Plan{}, errGivenUp
	}
	text, err := e.exchange(ctx, dot)
	if err != nil {
		return layout.Plan{}, err
	}
	plan, err := layout.ParsePlain(g, string(text))
	if err == nil {
		e.keep(dot, plan)
	}
	return plan, err
}

func (e *Engine) keep(dot string, plan layout.Plan) {
	if e.kept == nil || len(e.kept) >= mostKept {
		e.kept = map[string]layout.Plan{}
	}
	e.kept[dot] = plan
}

// exchange sends one request and waits for its answer, within its limit even
// where the caller has left: the plan is kept for the next who asks. A child
// that does not answer in time is killed; the next request starts another.
func (e *Engine) exchange(ctx context.Context, dot string) ([]byte, error) {
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	limit := e.cost
	if e.work == nil {
		limit += e.first
		work, err := start(e.command)
		if err != nil {
			e.fails++
			return nil, err
		}
		e.work = work
	}
	text, err := e.work.exchange(dot, limit)
	var refused *refusal
	switch {
	case err == nil, errors.As(err, &refused):
		e.fails = 0
	default:
		e.fails++
		e.stop()
	}
	return text, err
}

func (e *Engine) stop() {
	if e.work != nil {
		e.work.stop()
		e.work = nil
	}
}

// worker is a child that runs.
type worker struct {
	command *exec.Cmd
	in      io.WriteCloser
	out     *bufio.Reader
}

func start(command []string) (*worker, error) {
	c := exec.Command(command[0], command[1:]...)
	c.Env = append(os.Environ(), privateFolder()...)
	in, err := c.StdinPipe()
	if err != nil {
		return nil, fmt.Errorf("layout: start the child: %w", err)
	}
	out, err := c.StdoutPipe()
	if err != nil {
		return nil, fmt.Errorf("layout: start the child: %w", err)
	}
	if err := c.Start(); err != nil {
		return nil, fmt.Errorf("layout: start the child: %w", err)
	}
	return &worker{c, in, bufio.NewReader(out)}, nil
}

// privateFolder makes the library keep its compiled self in a folder of the
// user's: left alone it takes one in the shared folder for temporary files,
// under a name that anyone on the machine could have made before.
func privateFolder() []string {
	cache, err := os.UserCacheDir()
	if err != nil {
		return nil
	}
	dir := filepath.Join(cache, "knockon")
	if os.MkdirAll(dir, 0o700) != nil {
		return nil
	}
	return []string{"TMPDIR=" + dir, "TMP=" + dir, "TEMP=" + dir}
}

type answer struct {
	text []byte
	err  error
}

func (w *worker) exchange(dot string, limit time.Duration) ([]byte, error) {
	done := make(chan answer, 1)
	go func() {
		if writeFrame(w.in, []byte(dot)) != nil {
			done <- answer{nil, errNoAnswer}
			return
		}
		text, err := readAnswer(w.out)
		done <- answer{text, err}
	}()
	timer := time.NewTimer(limit)
	defer timer.Stop()
	select {
	case a := <-done:
		if errors.Is(a.err, io.EOF) {
			return nil, errNoAnswer
		}
		return a.text, a.err
	case <-timer.C:
		return nil, errTooSlow
	}
}

// stop ends the child. The pipes are closed with it, which ends an exchange
// that still waits.
func (w *worker) stop() {
	w.in.Close()
	w.command.Process.Kill()
	w.command.Wait()
}

// The wire between the two processes: a frame is its length as four bytes, the
// highest first, and then that many bytes. A request is one frame; an answer is
// one frame whose first byte says whether the rest is a plan or what went wrong.

// mostFrame bounds a frame: a plan of mostBoxes boxes is far below it.
const mostFrame = 4 << 20

const (
	answerPlan  = 'p'
	answerError = 'e'
)

// ReadFrame reads one frame. The error is io.EOF where the stream ends between frames.
func ReadFrame(r io.Reader) ([]byte, error) {
	var head [4]byte
	if _, err := io.ReadFull(r, head[:]); err != nil {
		return nil, err
	}
	n := binary.BigEndian.Uint32(head[:])
	if n > mostFrame {
		return nil, fmt.Errorf("layout: a message of %d bytes, more than %d", n, mostFrame)
	}
	body := make([]byte, n)
	if _, err := io.ReadFull(r, body); err != nil {
		return nil, fmt.Errorf("layout: a message broke off: %w", err)
	}
	return body, nil
}

// WriteAnswer writes a plan, or what went wrong.
func WriteAnswer(w io.Writer, plan []byte, failed error) error {
	if failed != nil {
		return writeFrame(w, append([]byte{answerError}, failed.Error()...))
	}
	return writeFrame(w, append([]byte{answerPlan}, plan...))
}

func writeFrame(w io.Writer, body []byte) error {
	frame := binary.BigEndian.AppendUint32(make([]byte, 0, 4+len(body)), uint32(len(body)))
	_, err := w.Write(append(frame, body...))
	return err
}

// readAnswer reads what WriteAnswer wrote.
func readAnswer(r io.Reader) (plan []byte, err error) {
	body, err := ReadFrame(r)
	switch {
	case err != nil:
		return nil, err
	case len(body) > 0 && body[0] == answerPlan:
		return body[1:], nil
	case len(body) > 0 && body[0] == answerError:
		return nil, &refusal{string(body[1:])}
	}
	return nil, fmt.Errorf("layout: an answer that is none")
}

// refusal is the library's word that it cannot place a graph. The child is well.
type refusal struct{ says string }

func (r *refusal) Error() string { return "layout: the graph library: " + r.says }
