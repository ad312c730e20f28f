package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math/bits"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/file"
	"github.com/apache/arrow-go/v18/parquet/metadata"
)

// A draft is a column of a row group and the pages it becomes, in buffers that the next column uses again.
type draft struct {
	dense
	numbering
	lists      lists // of different values
	dictionary []byte
	page       []byte
	compressed bytes.Buffer
}

type lists struct {
	of4 []uint32
	of8 []uint64
}

// writeWords writes words as a dictionary and codes.
func (c *chunk) writeWords(d *draft, words []string) error {
	d.dictionary = d.dictionary[:0]
	met := make([]parquet.ByteArray, len(words))
	for i, word := range words {
		d.dictionary = append(binary.LittleEndian.AppendUint32(d.dictionary, uint32(len(word))), word...)
		met[i] = parquet.ByteArray(word)
	}
	statistics := metadata.NewStatistics(c.about.Descr(), c.properties.Allocator())
	statistics.(*metadata.ByteArrayStatistics).Update(met, int64(d.rows-d.there))
	return c.writePages(d, len(words), statistics)
}

// numberStatistics are those of a column of numbers.
type numberStatistics[V any] interface {
	metadata.TypedStatistics
	Update(values []V, nulls int64)
}

// writeNumbers writes numbers, whose bits are a B, as a dictionary and codes if no more than half of them differ, and as
// they are if more do.
func writeNumbers[V float64 | int32 | int64, B uint32 | uint64](c *chunk, d *draft, list *[]B) error {
	values, nulls := arrow.GetData[V](d.values), int64(d.rows-d.there)
	statistics := metadata.NewStatistics(c.about.Descr(), c.properties.Allocator()).(numberStatistics[V])
	if c.properties.DictionaryEnabledFor(c.about.Descr().Path()) {
		var few bool
		if *list, d.codes, few = codesOf(&d.numbering, arrow.GetData[B](d.values), (*list)[:0], d.codes, len(values)/2); few {
			statistics.Update(arrow.GetData[V](arrow.GetBytes(*list)), nulls)
			d.dictionary = appendPlain(d.dictionary[:0], *list)
			return c.writePages(d, len(*list), statistics)
		}
	}
	statistics.Update(values, nulls)
	d.page = appendPlain(d.appendLevels(d.page[:0]), arrow.GetData[B](d.values))
	return c.writePage(d, parquet.Encodings.Plain, statistics)
}

// writeBatch has arrow-go encode values as the properties say.
func writeBatch[V int32 | bool](c *chunk, d *draft, values []V) error {
	levels := make([]int16, d.rows)
	for row := range levels {
		levels[row] = int16(d.present[row>>3] >> (row & 7) & 1)
	}
	writer := file.NewColumnChunkWriter(c.about, c, c.properties)
	_, err := writer.(interface {
		WriteBatch(values []V, levels, repetitions []int16) (int64, error)
	}).WriteBatch(values, levels, nil)
	return errors.Join(err, writer.Close())
}

// writePages writes a dictionary of so many entries, if there are any, and a page of codes.
func (c *chunk) writePages(d *draft, entries int, statistics metadata.TypedStatistics) error {
	d.page = d.appendLevels(d.page[:0])
	if entries == 0 {
		return c.writePage(d, parquet.Encodings.Plain, statistics)
	}
	dictionary := file.NewDictionaryPage(memory.NewBufferBytes(d.dictionary), int32(entries), c.properties.DictionaryPageEncoding())
	defer dictionary.Release()
	if _, err := c.WriteDictionaryPage(dictionary); err != nil {
		return err
	}
	width := max(1, bits.Len(uint(entries-1)))
	d.page = appendHybrid(append(d.page, byte(width)), d.codes, width)
	return c.writePage(d, c.properties.DictionaryIndexEncoding(), statistics)
}

// writePage writes the one page of the column.
func (c *chunk) writePage(d *draft, encoding parquet.Encoding, statistics metadata.TypedStatistics) error {
	descr := c.about.Descr()
	about, err := statistics.Encode()
	if err != nil {
		return err
	}
	about.ApplyStatSizeLimits(int(c.properties.MaxStatsSizeFor(descr.Path())))
	about.Signed = descr.PhysicalType() != parquet.Types.ByteArray
	d.compressed.Reset()
	page := file.NewDataPageV1WithConfig(memory.NewBufferBytes(c.Compress(&d.compressed, d.page)), parquet.Encodings.RLE, parquet.Encodings.RLE,
		file.DataPageConfig{Num: int32(d.rows), Encoding: encoding, UncompressedSize: int32(len(d.page)), Stats: about})
	defer page.Release()
	if _, err := c.WriteDataPage(page); err != nil {
		return err
	}
	c.about.SetStats(about)
	return c.Close(encoding != parquet.Encodings.Plain, false)
}

// appendLevels appends the definition levels and, before them, their length.
func (d *dense) appendLevels(page []byte) []byte {
	at := len(page)
	page = appendLevels(append(page, 0, 0, 0, 0), d.present, d.there, d.rows)
	binary.LittleEndian.PutUint32(page[at:], uint32(len(page)-at-4))
	return page
}

// appendPlain appends numbers as they are.
func appendPlain[B uint32 | uint64](to []byte, values []B) []byte {
	for _, value := range values {
		switch value := any(value).(type) {
		case uint32:
			to = binary.LittleEndian.AppendUint32(to, value)
		case uint64:
			to = binary.LittleEndian.AppendUint64(to, value)
		}
	}
	return to
}
