package book

import "github.com/hashicorp/hcl/v2/hclsyntax"

// complete tells whether an expression was checked without a problem.
func (b *builder) complete(n hclsyntax.Expression) bool { _, ok := b.cache[n]; return ok }

// checkWhole checks what needs the whole build.
func (b *builder) checkWhole() {
	if b.build.Aircraft == nil {
		b.add(noAircraft(b.where()))
	}
	b.checkFlapSettings()
	b.checkPerformance()
	b.checkBulletins()
	b.checkSends()
	b.checkDeferrals()
	b.findLoops()
	b.findContinuous()
	b.findTotalRings()
}
