package store

import "encoding/binary"

// shortestRun is the least number of equal codes that are written as a run and not packed.
const shortestRun = 16

// appendHybrid appends codes, of so many bits each, in runs of one code and groups of eight that are packed from the least
// bit on: RLE of "Encodings", Apache Parquet format (apache/parquet-format, Encodings.md), without its length.
func appendHybrid(to []byte, codes []int32, width int) []byte {
	packed := 0 // codes[packed:at] are to be packed
	for at := 0; at < len(codes); {
		end := at + 1
		for end < len(codes) && codes[end] == codes[at] {
			end++
		}
		// The last group before the run is filled up from it.
		fill := (packed - at) & 7
		if end-at-fill >= shortestRun {
			to = appendPacked(to, codes[packed:at+fill], width)
			to = appendRun(to, end-at-fill, codes[at], width)
			packed = end
		}
		at = end
	}
	return appendPacked(to, codes[packed:], width)
}

// appendRun appends a run of a code.
func appendRun(to []byte, length int, code int32, width int) []byte {
	to = binary.AppendUvarint(to, uint64(length)<<1)
	for shift := 0; shift < width; shift += 8 {
		to = append(to, byte(code>>shift))
	}
	return to
}

// appendPacked appends codes in groups of eight, the last one filled up with 0.
func appendPacked(to []byte, codes []int32, width int) []byte {
	if len(codes) == 0 {
		return to
	}
	groups := (len(codes) + 7) / 8
	to = binary.AppendUvarint(to, uint64(groups)<<1|1)
	end := len(to) + groups*width
	var bits uint64
	held := 0
	for _, code := range codes {
		bits |= uint64(code) << held
		if held += width; held >= 32 {
			to = binary.LittleEndian.AppendUint32(to, uint32(bits))
			bits >>= 32
			held -= 32
		}
	}
	for len(to) < end {
		to = append(to, byte(bits))
		bits >>= 8
	}
	return to
}

// appendLevels appends which of so many rows have a value, as definition levels of one bit.
func appendLevels(to []byte, present []byte, there, rows int) []byte {
	switch there {
	case rows:
		return appendRun(to, rows, 1, 1)
	case 0:
		return appendRun(to, rows, 0, 1)
	}
	to = binary.AppendUvarint(to, uint64(len(present))<<1|1)
	return append(to, present...)
}
