package metrics

import (
	"cmp"
	"sync"

	"roundmill/metrics/estimate"
)

// resamplers hands out one resampler for each number of rounds, the same to all
// groups of figures and all players: what it draws depends on nothing else. It
// may be shared by goroutines.
type resamplers struct {
	seed      uint64
	resamples int // 0: Resamples
}

type resamplerKey struct {
	rounds, resamples int
	seed              uint64
}

// mostHeld is how many bytes of draws are kept; past that all are made anew when
// they are asked for again. Cells of many long seasons have hundreds of numbers
// of rounds between them, a hundred kilobytes and more each.
const mostHeld = 8 << 20

var sharedResamplers struct {
	sync.Mutex
	made map[resamplerKey]*estimate.Resampler
}

func (r *resamplers) of(rounds int) *estimate.Resampler {
	key := resamplerKey{rounds, cmp.Or(r.resamples, Resamples), r.seed}
	shared := &sharedResamplers
	shared.Lock()
	defer shared.Unlock()
	made := shared.made[key]
	if made == nil {
		held := 0
		for _, other := range shared.made {
			held += other.Held()
		}
		if shared.made == nil || held > mostHeld {
			shared.made = map[resamplerKey]*estimate.Resampler{}
		}
		made = estimate.NewResampler(rounds, key.resamples, key.seed)
		shared.made[key] = made
	}
	return made
}
