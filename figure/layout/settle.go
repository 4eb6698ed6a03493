package layout

// settle moves the spots of each column up and down, in their order, towards
// the middle of what they are joined with.
func (n *net) settle() {
	n.stack()
	for i := range 2 * sweeps {
		right := i%2 == 0
		y := n.heights()
		for j := range n.columns {
			c := j
			if !right {
				c = len(n.columns) - 1 - j
			}
			n.settleColumn(c, right, y)
		}
	}
}

// stack is the first guess: every column packed from the top.
func (n *net) stack() {
	for _, column := range n.columns {
		y := 0.0
		for _, s := range column {
			n.spots[s].y = y + n.spots[s].height/2
			y += n.spots[s].height + gapDown
		}
	}
}

func (n *net) heights() []float64 {
	y := make([]float64, len(n.spots))
	for i := range n.spots {
		y[i] = n.spots[i].y
	}
	return y
}

// settleColumn gives one column the places nearest to the wished ones (least
// squares) that keep its order and its gaps: once every spot's distance from
// the top of the column is taken off, the places may only rise, and pooling
// neighbours that do not solves that exactly.
func (n *net) settleColumn(c int, right bool, y []float64) {
	type pool struct {
		sum   float64
		count int
	}
	column := n.columns[c]
	offset := n.offsets(column)
	var pools []pool
	for i, s := range column {
		pools = append(pools, pool{n.middle(s, right, y) - offset[i], 1})
		for len(pools) > 1 {
			last, before := pools[len(pools)-1], pools[len(pools)-2]
			if before.sum/float64(before.count) <= last.sum/float64(last.count) {
				break
			}
			pools = append(pools[:len(pools)-2], pool{before.sum + last.sum, before.count + last.count})
		}
	}
	i := 0
	for _, p := range pools {
		for range p.count {
			s := column[i]
			n.spots[s].y = p.sum/float64(p.count) + offset[i]
			y[s] = n.spots[s].y
			i++
		}
	}
}

// offsets is how far below the first spot each one of a column is at least.
func (n *net) offsets(column []int) []float64 {
	offset := make([]float64, len(column))
	for i := 1; i < len(column); i++ {
		above, s := n.spots[column[i-1]], n.spots[column[i]]
		offset[i] = offset[i-1] + (above.height+s.height)/2 + gapDown
	}
	return offset
}

// plan turns the settled net into places on paper.
func (n *net) plan() Plan {
	p := Plan{Centres: make([]Point, len(n.graph.Boxes)), Curves: make([][]Point, len(n.graph.Arrows))}
	middle := n.columnMiddles(&p)
	top := n.top()
	for i := range n.spots {
		s := &n.spots[i]
		s.y -= top
		p.Height = max(p.Height, s.y+s.height/2)
		if s.box >= 0 {
			p.Centres[s.box] = Point{middle[s.column], s.y}
		}
	}
	for i, chain := range n.chains {
		p.Curves[i] = n.curve(chain, middle)
	}
	return p
}

// columnMiddles gives the x of every column's middle and the plan its width.
func (n *net) columnMiddles(p *Plan) []float64 {
	middle := make([]float64, len(n.columns))
	for c := len(n.columns) - 1; c >= 0; c-- {
		widest := 0.0
		for _, s := range n.columns[c] {
			widest = max(widest, n.spots[s].width)
		}
		if c < len(n.columns)-1 {
			p.Width += gapAcross
		}
		middle[c] = p.Width + widest/2
		p.Width += widest
	}
	return middle
}

func (n *net) top() float64 {
	top := 0.0
	for i := range n.spots {
		if edge := n.spots[i].y - n.spots[i].height/2; i == 0 || edge < top {
			top = edge
		}
	}
	return top
}

// curve joins the spots of an arrow, leaving and entering them level. A bend
// is as wide as its column, so that the curve passes between the boxes.
func (n *net) curve(chain []int, middle []float64) []Point {
	first, last := n.spots[chain[0]], n.spots[chain[len(chain)-1]]
	line := []Point{{middle[first.column] + first.width/2, first.y}}
	to := func(q Point) {
		from := line[len(line)-1]
		half := (q.X - from.X) / 2
		line = append(line, Point{from.X + half, from.Y}, Point{q.X - half, q.Y}, q)
	}
	for _, s := range chain[1 : len(chain)-1] {
		x, half := middle[n.spots[s].column], n.halfWidth(n.spots[s].column)
		to(Point{x - half, n.spots[s].y})
		to(Point{x + half, n.spots[s].y})
	}
	to(Point{middle[last.column] - last.width/2, last.y})
	return line
}

func (n *net) halfWidth(column int) float64 {
	widest := 0.0
	for _, s := range n.columns[column] {
		widest = max(widest, n.spots[s].width)
	}
	return widest / 2
}
