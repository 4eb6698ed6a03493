// Package oracle flies a book slowly and plainly, to check the fast evaluator.
//
// It turns a build, a path and a scenario into a Trace: every value of every
// item over time. It walks the expression trees at small fixed steps, every
// node in every evaluation, and follows docs/meaning.md section by section; it
// looks for no crossings and skips nothing. It shares no code with packages
// circuit and run, so a mistake would have to be made twice to go unseen.
//
// The one invariant: at each step everything is worked out again from the
// memories and the path alone.
//
// Start reading at Fly, then machine.moment, which is section 3 of the page;
// for how a loss is known (section 5a), at Question.Know.
package oracle
