package witness

// rank orders the variables that are up for choice: those first that had to do
// with the latest dead ends.
type rank struct {
	weight []float64 // by variable
	step   float64   // by how much a weight rises
	heap   []int32
	place  []int32 // by variable: where in the heap, or -1
	turn   []int32 // by variable: the search that it was last up in
	now    int32
}

const mostWeight = 1e100

func (r *rank) grow() {
	r.weight, r.place, r.turn = append(r.weight, 0), append(r.place, -1), append(r.turn, 0)
	r.step = max(r.step, 1)
}

// clear begins a new search.
func (r *rank) clear() {
	for _, v := range r.heap {
		r.place[v] = -1
	}
	r.heap = r.heap[:0]
	r.now++
}

// admit says that a variable may be chosen in this search, and whether that is
// new.
func (r *rank) admit(v int32) bool {
	if r.turn[v] == r.now {
		return false
	}
	r.turn[v] = r.now
	return true
}

func (r *rank) push(v int32) {
	if r.turn[v] != r.now || r.place[v] >= 0 {
		return
	}
	r.place[v] = int32(len(r.heap))
	r.heap = append(r.heap, v)
	r.up(len(r.heap) - 1)
}

func (r *rank) pop() (v int32, ok bool) {
	if len(r.heap) == 0 {
		return 0, false
	}
	v = r.heap[0]
	last := len(r.heap) - 1
	r.swap(0, last)
	r.heap, r.place[v] = r.heap[:last], -1
	r.down(0)
	return v, true
}

func (r *rank) raise(v int32) {
	if r.weight[v] += r.step; r.weight[v] > mostWeight {
		for i := range r.weight {
			r.weight[i] /= mostWeight
		}
		r.step /= mostWeight
	}
	if r.place[v] >= 0 {
		r.up(int(r.place[v]))
	}
}

func (r *rank) decay() { r.step /= 0.95 }

func (r *rank) up(i int) {
	for i > 0 && r.weight[r.heap[i]] > r.weight[r.heap[(i-1)/2]] {
		r.swap(i, (i-1)/2)
		i = (i - 1) / 2
	}
}

func (r *rank) down(i int) {
	for {
		best := i
		for k := 2*i + 1; k <= 2*i+2 && k < len(r.heap); k++ {
			if r.weight[r.heap[k]] > r.weight[r.heap[best]] {
				best = k
			}
		}
		if best == i {
			return
		}
		r.swap(i, best)
		i = best
	}
}

func (r *rank) swap(i, j int) {
	h := r.heap
	h[i], h[j] = h[j], h[i]
	r.place[h[i]], r.place[h[j]] = int32(i), int32(j)
}
