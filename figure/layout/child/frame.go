package child

import (
	"encoding/binary"
	"fmt"
	"io"
)

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
