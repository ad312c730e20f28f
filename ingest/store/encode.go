package store

import (
	"bufio"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"runtime"
	"sync"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/flight"
	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/compress"
	"github.com/apache/arrow-go/v18/parquet/file"
	"github.com/apache/arrow-go/v18/parquet/metadata"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"

	"roundmill/ingest/ordered"
)

const magic = "PAR1"

// writeBytes is how much of a file is written at a time.
const writeBytes = 256 << 10

// An encoder writes a Parquet file, one row group after another and the columns of a row group side by side. It does
// what file.Writer of arrow-go does, which closes columns, where most of the work is, one by one.
type encoder struct {
	out        *position
	properties *parquet.WriterProperties
	footer     *metadata.FileMetaDataBuilder
	index      metadata.PageIndexBuilder
	groups     int16
}

// position is a buffered writer that knows how much was written.
type position struct {
	buffer *bufio.Writer
	at     int64
}

func (p *position) Write(b []byte) (int, error) {
	n, err := p.buffer.Write(b)
	p.at += int64(n)
	return n, err
}

func (p *position) Tell() int64 { return p.at }

// newEncoder starts a file; the metadata of the options follows the schema in the footer.
func newEncoder(out io.Writer, as *arrow.Schema, options Options) (*encoder, error) {
	properties := []parquet.WriterProperty{
		parquet.WithCompression(compress.Codecs.Zstd),
		parquet.WithCompressionLevel(zstdLevel),
		parquet.WithPageIndexEnabled(true),
		// parquet-java ignores statistics of a writer whose name is not of this shape.
		parquet.WithCreatedBy(fmt.Sprintf("roundmill version %s (build %s)", options.Version, options.Version)),
	}
	for _, name := range options.Varied { // a dictionary would be as long as the column
		properties = append(properties, parquet.WithDictionaryFor(name, false))
	}
	for _, name := range options.Rising { // by their differences
		properties = append(properties, parquet.WithDictionaryFor(name, false), parquet.WithEncodingFor(name, parquet.Encodings.DeltaBinaryPacked))
	}
	if len(options.SortedBy) > 0 {
		var sorting []parquet.SortingColumn
		for _, name := range options.SortedBy {
			sorting = append(sorting, parquet.SortingColumn{ColumnIdx: int32(as.FieldIndices(name)[0]), NullsFirst: true})
		}
		properties = append(properties, parquet.WithSortingColumns(sorting))
	}
	e := &encoder{out: &position{buffer: bufio.NewWriterSize(out, writeBytes)}, properties: parquet.NewWriterProperties(properties...)}
	columns, err := pqarrow.ToParquet(as, e.properties, pqarrow.DefaultWriterProps())
	if err != nil {
		return nil, err
	}
	serialized := flight.SerializeSchema(as, e.properties.Allocator())
	pairs := metadata.NewKeyValueMetadata()
	err = pairs.Append("ARROW:schema", base64.StdEncoding.EncodeToString(serialized))
	for _, key := range sortedKeys(options.Metadata) {
		err = errors.Join(err, pairs.Append(key, options.Metadata[key]))
	}
	e.footer = metadata.NewFileMetadataBuilder(columns, e.properties, pairs)
	e.index = metadata.PageIndexBuilder{Schema: columns}
	_, magicErr := io.WriteString(e.out, magic)
	return e, errors.Join(err, magicErr)
}

// chunk is the pages of a column in a row group, of which it is told when there are no more. They wait in memory until
// it is their turn in the file.
type chunk struct {
	file.PageWriter
	about      *metadata.ColumnChunkMetaDataBuilder
	properties *parquet.WriterProperties
	append     func() error
}

func (e *encoder) chunk(about *metadata.ColumnChunkMetaDataBuilder, column int) (*chunk, error) {
	pages, err := file.NewPageWriter(e.out, e.properties.Compression(), e.properties.CompressionLevel(), about, e.groups, int16(column),
		e.properties.Allocator(), true, nil, nil)
	if err != nil {
		return nil, err
	}
	values, err := e.index.GetColumnIndexBuilder(column)
	if err != nil {
		return nil, err
	}
	places, err := e.index.GetOffsetIndexBuilder(column)
	if err != nil {
		return nil, err
	}
	pages.SetIndexBuilders(values, places)
	return &chunk{PageWriter: pages, about: about, properties: e.properties}, nil
}

// Close is called by the writer of the column when it has no more pages.
func (c *chunk) Close(hasDictionary, fallback bool) error {
	c.append = func() error { return c.PageWriter.Close(hasDictionary, fallback) }
	return nil
}

// rowGroup encodes rows and adds them to the sums.
func (e *encoder) rowGroup(rows *opened, sums *sums) error {
	if err := e.index.AppendRowGroup(); err != nil {
		return err
	}
	about := e.footer.AppendRowGroup()
	chunks := make([]*chunk, len(sums.columns))
	for i := range chunks {
		var err error
		if chunks[i], err = e.chunk(about.NextColumnChunk(), i); err != nil {
			return err
		}
	}
	group := ordered.NewGroup(runtime.GOMAXPROCS(0))
	for i, chunk := range chunks {
		group.Go(func() error {
			return encodeColumn(rows, i, chunk, &sums.columns[i], sums.rows)
		})
	}
	if err := group.Wait(); err != nil {
		return err
	}
	for _, chunk := range chunks {
		if err := chunk.append(); err != nil {
			return err
		}
	}
	sums.rows += int64(rows.rows)
	about.SetNumRows(rows.rows)
	e.groups++
	return about.Finish(0, e.groups-1)
}

var spare = sync.Pool{New: func() any { return new(draft) }}

// encodeColumn encodes a column and adds it to its sum over the rows before.
func encodeColumn(rows *opened, column int, to *chunk, sum *columnSum, before int64) (err error) {
	d := spare.Get().(*draft)
	defer spare.Put(d)
	seen := before - sum.nulls
	descr := to.about.Descr()
	switch kind := descr.PhysicalType(); {
	case kind == parquet.Types.ByteArray:
		err = to.writeWords(d, rows.words(column, &d.dense))
	case kind == parquet.Types.Double:
		rows.values(column, 8, &d.dense)
		addValues(sum, arrow.GetData[float64](d.values), seen)
		err = writeNumbers[float64](to, d, &d.lists.of8)
	case kind == parquet.Types.Int64:
		rows.values(column, 8, &d.dense)
		addValues(sum, arrow.GetData[int64](d.values), seen)
		err = writeNumbers[int64](to, d, &d.lists.of8)
	case to.properties.EncodingFor(descr.Path()) == parquet.Encodings.DeltaBinaryPacked:
		rows.values(column, 4, &d.dense)
		values := arrow.GetData[int32](d.values)
		addValues(sum, values, seen)
		err = writeBatch(to, d, values)
	case kind == parquet.Types.Int32:
		rows.values(column, 4, &d.dense)
		addValues(sum, arrow.GetData[int32](d.values), seen)
		err = writeNumbers[int32](to, d, &d.lists.of4)
	default:
		rows.answers(column, &d.dense)
		for i, yes := range d.answers {
			sum.extent = sum.with(yesIs1(yes), seen+int64(i) == 0)
		}
		err = writeBatch(to, d, d.answers)
	}
	sum.nulls += int64(d.rows - d.there)
	return err
}

// close writes the page index and the footer.
func (e *encoder) close() error {
	e.index.Finish()
	var places metadata.PageIndexLocation
	if err := e.index.WriteTo(e.out, &places); err != nil {
		return err
	}
	if err := e.footer.SetPageIndexLocation(places); err != nil {
		return err
	}
	footer, err := e.footer.Finish()
	if err != nil {
		return err
	}
	n, err := footer.WriteTo(e.out, nil)
	if err != nil {
		return err
	}
	if _, err := e.out.Write(append(binary.LittleEndian.AppendUint32(nil, uint32(n)), magic...)); err != nil {
		return err
	}
	return e.out.buffer.Flush()
}
