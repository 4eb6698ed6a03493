package sweep

// table keeps a number for each of many prints, which are spread evenly as they
// are. No print is 0.
type table struct {
	keys   []uint64
	values []uint64
	n      int
}

func (t *table) find(key uint64) int {
	mask := uint64(len(t.keys) - 1)
	i := key & mask
	for t.keys[i] != key && t.keys[i] != 0 {
		i = (i + 1) & mask
	}
	return int(i)
}

func (t *table) get(key uint64) (v uint64, ok bool) {
	if len(t.keys) == 0 {
		return 0, false
	}
	i := t.find(key)
	return t.values[i], t.keys[i] == key
}

// put adds a print that the table does not have.
func (t *table) put(key uint64, v uint64) {
	if 4*t.n >= 3*len(t.keys) {
		t.grow()
	}
	i := t.find(key)
	t.keys[i], t.values[i] = key, v
	t.n++
}

func (t *table) grow() {
	old := *t
	size := max(1024, 2*len(old.keys))
	*t = table{keys: make([]uint64, size), values: make([]uint64, size)}
	for i, k := range old.keys {
		if k != 0 {
			t.put(k, old.values[i])
		}
	}
}
