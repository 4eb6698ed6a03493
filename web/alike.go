package web

import (
	"context"
	"net/http"
	"runtime"
	"strconv"
	"sync"
	"time"

	"knockon/book"
	"knockon/proof"
	"knockon/scenario"
)

// alikePage is what a crew that looks can conclude: what looks the same.
type alikePage struct {
	Title, Aircraft, Caution, Address, Back, JSON string

	*proof.View           // nil: nothing was asked that can be answered
	Same        []example // failures that show the same, each with its answer
	Problems    []problem
	Instead     []example // questions of one failure
	After       string
	Hidden      []hidden
}

// alikeAfter is how long after a failure the crew look if nobody says when, and
// mostAfter the longest.
const (
	alikeAfter = time.Minute
	mostAfter  = 4 * time.Hour
)

// alike answers GET /alike.
func (s *Site) alike(r *http.Request) (reply, error) {
	q, found, err := s.looked(r)
	p := &alikePage{Title: "What looks the same", Aircraft: q.shelf.title(), Caution: book.Caution, Problems: q.Problems, After: r.URL.Query().Get("after"), Back: "/?" + q.Query(), Hidden: q.hidden(), Address: site(r) + r.URL.RequestURI()}
	if wrong, ours := theirs(err); ours {
		p.Problems, err = append(p.Problems, wrong), nil
	}
	if err != nil {
		return reply{}, err
	}
	if len(q.What) > 1 {
		for _, f := range q.What {
			one := *q
			one.What = []string{f}
			p.Instead = append(p.Instead, example{q.build.FailureTitle(f), "/alike?" + one.Query()})
		}
	}
	if found != nil {
		v := found.View()
		p.View, p.JSON = &v, "/alike.json?"+r.URL.RawQuery
		for _, f := range found.Same {
			other := *q
			other.What = []string{f.String()}
			p.Same = append(p.Same, example{q.build.FailureTitle(f.String()), "/?" + other.Query()})
		}
	}
	rep, err := s.frame.Page("alike", p)
	if len(p.Problems) > 0 {
		rep.Status = http.StatusBadRequest
	}
	return rep, err
}

// alikeJSON answers GET /alike.json.
func (s *Site) alikeJSON(r *http.Request) (reply, error) {
	q, found, err := s.looked(r)
	switch {
	case err != nil:
		return reply{}, err
	case len(q.Problems) > 0:
		return reply{}, &scenario.Trouble{Part: q.Problems[0].Part, Text: q.Problems[0].Text}
	case found == nil:
		return reply{}, &fault{Status: http.StatusBadRequest, Text: "Say which one failure: fail=gen_left."}
	}
	return asJSON(found.View())
}

// looked is what one failure shows to who looks some time after it, hands off; nil where
// the address asks of none.
func (s *Site) looked(r *http.Request) (q *question, found *proof.Proof, err error) {
	values := r.URL.Query()
	text := cut(values.Get("after"))
	values.Del("after")
	q = s.parse(values)
	q.unknown(values)
	if len(q.What) == 0 || q.fatal {
		return q, nil, nil
	}
	after := alikeAfter
	if text != "" {
		if after, err = seconds(text); err != nil {
			return q, nil, err
		}
	}
	if text := q.asksMore(); text != "" {
		return q, nil, &scenario.Trouble{Part: "fail", Text: text}
	}
	found, err = s.proofs.of(q.Query()+" "+after.String(), func() (*proof.Proof, error) { return q.proven(r.Context(), after) })
	return q, found, err
}

// keptProofs are what was worked out last: each takes some seconds.
type keptProofs struct {
	sync.Mutex
	found map[string]*proof.Proof
}

const mostProofs = 32

func (k *keptProofs) of(key string, work func() (*proof.Proof, error)) (*proof.Proof, error) {
	k.Lock()
	p := k.found[key]
	k.Unlock()
	if p != nil {
		return p, nil
	}
	p, err := work()
	if err != nil {
		return nil, err
	}
	k.Lock()
	defer k.Unlock()
	if k.found == nil || len(k.found) >= mostProofs {
		k.found = map[string]*proof.Proof{}
	}
	k.found[key] = p
	return p, nil
}

func seconds(text string) (time.Duration, error) {
	n, err := strconv.ParseFloat(text, 64)
	if d := time.Duration(n * float64(time.Second)); err == nil && n >= 0 && d <= mostAfter {
		return d, nil
	}
	return 0, &scenario.Trouble{Part: "after", Text: "“" + text + "” is no number of seconds from 0 to " + strconv.Itoa(int(mostAfter.Seconds()))}
}

// asksMore is why a question cannot be asked of what looks the same; "" if it can.
func (q *question) asksMore() string {
	switch {
	case len(q.What) > 1:
		return "what looks the same is asked of one failure alone"
	case q.When != "" || q.ForS != 0 || q.Resettable || len(q.Sets)+len(q.Acts)+len(q.Plan) > 0:
		return "what looks the same is asked of one failure that comes at a moment and lasts, with nothing moved"
	}
	return ""
}

func (q *question) proven(ctx context.Context, after time.Duration) (*proof.Proof, error) {
	course, err := q.shelf.desk.Course(q.Build, q.Flight)
	if err != nil {
		return nil, err
	}
	ask := proof.Question{Course: course, After: book.Time(after / time.Microsecond), Workers: runtime.GOMAXPROCS(0)}
	if ask.At, err = scenario.Moment("at", q.At, course.Build); err != nil {
		return nil, err
	}
	if ask.Fail, err = book.ParseFailure(q.What[0], course.Build); err != nil {
		return nil, err
	}
	for _, out := range q.Out {
		f, err := book.ParseFailure(out, course.Build)
		if err != nil {
			return nil, err
		}
		ask.Out = append(ask.Out, f)
	}
	found, err := proof.Of(ctx, ask, nil)
	if err != nil && ctx.Err() == nil {
		return nil, &scenario.Trouble{Part: "at", Text: err.Error()} // a moment that this flight has not
	}
	return found, err
}
