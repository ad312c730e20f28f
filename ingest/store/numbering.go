package store

import "math/bits"

// A numbering gives different values codes, in the order in which they are first met. It is a table of open addresses,
// at most half full; what is in it of another turn counts as empty.
type numbering struct {
	slots []numbered
	turn  uint32
}

type numbered struct {
	value uint64
	turn  uint32
	code  int32
}

const fewestSlots = 1 << 10

// begin forgets all values.
func (n *numbering) begin() {
	if n.turn++; n.turn == 0 || n.slots == nil {
		n.slots, n.turn = make([]numbered, fewestSlots), 1
	}
}

// codesOf appends to an empty list the values that differ, and to no codes those of all values; false, and nothing of use,
// if more than so many differ.
func codesOf[V uint32 | uint64](n *numbering, values, list []V, codes []int32, most int) ([]V, []int32, bool) {
	n.begin()
	for i, value := range values {
		if i > 0 && value == values[i-1] {
			codes = append(codes, codes[i-1])
			continue
		}
		slot := n.slot(uint64(value))
		if slot.turn == n.turn {
			codes = append(codes, slot.code)
			continue
		}
		if len(list) == most {
			return list, codes, false
		}
		*slot = numbered{uint64(value), n.turn, int32(len(list))}
		codes = append(codes, slot.code)
		if list = append(list, value); 2*len(list) > len(n.slots) {
			n.grow()
		}
	}
	return list, codes, true
}

// slot is where a value is, or belongs.
func (n *numbering) slot(value uint64) *numbered {
	const golden = 0x9e3779b97f4a7c15 // 2⁶⁴ parted in the golden ratio: Knuth, The Art of Computer Programming 3, 6.4
	mask := uint64(len(n.slots) - 1)
	for at := value * golden >> (64 - bits.Len64(mask)); ; at++ {
		slot := &n.slots[at&mask]
		if slot.turn != n.turn || slot.value == value {
			return slot
		}
	}
}

// grow doubles the table.
func (n *numbering) grow() {
	old := n.slots
	n.slots = make([]numbered, 2*len(old))
	for _, slot := range old {
		if slot.turn == n.turn {
			*n.slot(slot.value) = slot
		}
	}
}
