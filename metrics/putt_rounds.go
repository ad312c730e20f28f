package metrics

import (
	"math"
	"slices"
)

// puttRounds are the putts of one cell by round: how many, how many were made,
// and strokes gained by those of which they are known.
type puttRounds []puttRound

type puttRound struct {
	round          int32
	n, made, known uint16
	gained         float64
}

// add adds a putt of the round that is being added; gained is NaN where it is
// not known.
func (p *puttRounds) add(round int32, made bool, gained float64) {
	if last := len(*p) - 1; last < 0 || (*p)[last].round != round {
		*p = append(*p, puttRound{round: round})
	}
	putts := &(*p)[len(*p)-1]
	putts.n++
	if made {
		putts.made++
	}
	if !math.IsNaN(gained) {
		putts.known++
		putts.gained += gained
	}
}

// inOrder are the putts in the order of the rounds' ranks, each round once.
func (p puttRounds) inOrder(ranks []int32) puttRounds {
	byRank := make(puttRounds, len(ranks))
	for _, putts := range p {
		rank := ranks[putts.round]
		sum := &byRank[rank]
		sum.round = rank
		sum.n += putts.n
		sum.made += putts.made
		sum.known += putts.known
		sum.gained += putts.gained
	}
	return slices.DeleteFunc(byRank, func(putts puttRound) bool { return putts.n == 0 })
}

// n is the number of putts, and of those made.
func (p puttRounds) n() (n, made int64) {
	for _, putts := range p {
		n += int64(putts.n)
		made += int64(putts.made)
	}
	return n, made
}

// made are the putts holed, as first sums over all putts.
func (p puttRounds) made() roundSums {
	sums := make(roundSums, 0, len(p))
	for _, putts := range p {
		sums = append(sums, roundSum{putts.round, int32(putts.n), [2]float64{float64(putts.made)}})
	}
	return sums
}

// gained are the strokes gained, as first sums over the putts of which they are
// known.
func (p puttRounds) gained() roundSums {
	sums := make(roundSums, 0, len(p))
	for _, putts := range p {
		if putts.known > 0 {
			sums = append(sums, roundSum{putts.round, int32(putts.known), [2]float64{putts.gained}})
		}
	}
	return sums
}
