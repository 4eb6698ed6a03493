package dispatch

import "sync"

// keeper keeps what was worked out without an error.
type keeper struct {
	mu   sync.Mutex
	kept *Singles
}

func (k *keeper) of(work func() (*Singles, error)) (*Singles, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.kept != nil {
		return k.kept, nil
	}
	x, err := work()
	if err == nil {
		k.kept = x
	}
	return x, err
}
