package mef

import (
	"math"
	"strconv"

	"knockon/say"
)

// number works out an expression of the stochastic layer. ok is false if it
// cannot be; the reason has then been noted.
func (b *reader) number(e *element, at scope) (value float64, ok bool) {
	switch e.name {
	case "float", "int":
		v, err := strconv.ParseFloat(e.attr("value"), 64)
		if err != nil {
			b.fail(e.err("%q is no number", e.attr("value")))
		}
		return v, err == nil
	case "bool":
		return b.truth(e)
	case "pi":
		return math.Pi, true
	case "system-mission-time":
		if b.limits.MissionHours == 0 {
			b.fail(e.err("the system mission time is not given"))
		}
		return b.limits.MissionHours, b.limits.MissionHours != 0
	case "parameter":
		return b.parameterNamed(e, at)
	}
	op, known := operations[e.name]
	args, ok := b.numbers(e, at)
	switch {
	case !known:
		b.fail(e.err("expression <%s> is not supported", e.name))
		return 0, false
	case ok && (len(args) < op.least || len(args) > op.most):
		b.fail(e.err("<%s> has %s", e.name, say.Counted(len(args), "argument")))
		return 0, false
	case !ok:
		return 0, false
	}
	return op.value(args), true
}

func (b *reader) truth(e *element) (float64, bool) {
	switch e.attr("value") {
	case "true":
		return 1, true
	case "false":
		return 0, true
	}
	b.fail(e.err("%q is neither true nor false", e.attr("value")))
	return 0, false
}

func (b *reader) numbers(e *element, at scope) (args []float64, ok bool) {
	ok = true
	for _, c := range e.content() {
		if operations[e.name].value == nil {
			break
		}
		v, good := b.number(c, at)
		args = append(args, v)
		ok = ok && good
	}
	return args, ok
}

func (b *reader) parameterNamed(e *element, at scope) (float64, bool) {
	name := b.needName(e)
	d := b.find(name, at)
	switch {
	case name == "":
		return 0, false
	case d == nil || d.kind != "parameter":
		b.fail(e.err("parameter %s is not defined", name))
		return 0, false
	case d.state == open:
		b.fail(e.err("parameter %s is made from itself", name))
		return 0, false
	}
	return b.parameter(d)
}

// parameter works a parameter out once. One that failed is not a number.
func (b *reader) parameter(d *definition) (float64, bool) {
	if d.state == untouched {
		d.state, d.value = open, math.NaN()
		if content := d.content(); len(content) != 1 {
			b.fail(d.err("parameter %s has %s; it must have one", d.name, say.Counted(len(content), "expression")))
		} else if v, ok := b.number(content[0], d.scope); ok {
			d.value = v
		}
		d.state = done
	}
	return d.value, !math.IsNaN(d.value)
}

type operation struct {
	least, most int // arguments
	value       func(x []float64) float64
}

const many = math.MaxInt

func unary(f func(float64) float64) operation {
	return operation{1, 1, func(x []float64) float64 { return f(x[0]) }}
}

func fold(f func(a, b float64) float64) operation {
	return operation{1, many, func(x []float64) float64 {
		v := x[0]
		for _, y := range x[1:] {
			v = f(v, y)
		}
		return v
	}}
}

// operations are those of the standard's chapter on the stochastic layer.
// Random deviates stand for their means.
var operations = map[string]operation{
	"neg":   unary(func(x float64) float64 { return -x }),
	"abs":   unary(math.Abs),
	"exp":   unary(math.Exp),
	"log":   unary(math.Log),
	"log10": unary(math.Log10),
	"sqrt":  unary(math.Sqrt),
	"add":   fold(func(a, b float64) float64 { return a + b }),
	"sub":   fold(func(a, b float64) float64 { return a - b }),
	"mul":   fold(func(a, b float64) float64 { return a * b }),
	"div":   fold(func(a, b float64) float64 { return a / b }),
	"min":   fold(math.Min),
	"max":   fold(math.Max),
	"pow":   {2, 2, func(x []float64) float64 { return math.Pow(x[0], x[1]) }},
	"mean": {1, many, func(x []float64) float64 {
		sum := 0.0
		for _, y := range x {
			sum += y
		}
		return sum / float64(len(x))
	}},

	// 1 - exp(-rate time)
	"exponential": {2, 2, func(x []float64) float64 { return -math.Expm1(-x[0] * x[1]) }},
	"GLM":         {4, 4, glm},
	"Weibull":     {4, 4, weibull},

	"uniform-deviate":   {2, 2, func(x []float64) float64 { return (x[0] + x[1]) / 2 }},
	"normal-deviate":    {2, 2, func(x []float64) float64 { return x[0] }},
	"lognormal-deviate": {3, 3, func(x []float64) float64 { return x[0] }},
	"gamma-deviate":     {2, 2, func(x []float64) float64 { return x[0] * x[1] }},
	"beta-deviate":      {2, 2, func(x []float64) float64 { return x[0] / (x[0] + x[1]) }},
}

// glm is the unavailability of a unit that may fail on demand (probability x[0]),
// fails at rate x[1] and is repaired at rate x[2], at time x[3].
func glm(x []float64) float64 {
	demand, failure, repair, t := x[0], x[1], x[2], x[3]
	both := failure + repair
	if both == 0 {
		return demand
	}
	return failure/both - (failure/both-demand)*math.Exp(-both*t)
}

// weibull has the scale x[0], the shape x[1], the time shift x[2] and the time x[3].
func weibull(x []float64) float64 {
	if x[3] <= x[2] {
		return 0
	}
	return -math.Expm1(-math.Pow((x[3]-x[2])/x[0], x[1]))
}
