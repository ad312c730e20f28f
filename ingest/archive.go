package ingest

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"

	"github.com/klauspost/compress/zip"
	"github.com/klauspost/compress/zstd"
)

const mostMembers = 10_000 // files in one archive

// An archive is a zip file whose members are read as they stand in it.
type archive struct {
	path   string // "" for one that is in memory
	text   []byte
	sum    []byte // hash of the bytes on disk, once it was opened
	opened *zip.Reader
	file   *os.File
	listed fs.FileInfo // as it was when it was first opened
}

// open opens the archive, or leaves it open.
func (a *archive) open() error {
	if a.opened != nil {
		return nil
	}
	var at io.ReaderAt = bytes.NewReader(a.text)
	size := int64(len(a.text))
	if a.path != "" {
		file, err := os.Open(a.path)
		if err != nil {
			return err
		}
		info, err := file.Stat()
		if err != nil {
			file.Close()
			return err
		}
		if a.listed == nil {
			a.listed = info
		}
		if changed(a.listed, info) {
			file.Close()
			return errChanged(a.path)
		}
		a.file, size = file, info.Size()
		at = io.NewSectionReader(file, 0, size) // a damaged archive points outside itself
	}
	opened, err := zip.NewReader(at, size)
	if err == nil && a.sum == nil {
		hash := sha256.New()
		_, err = io.Copy(hash, io.NewSectionReader(at, 0, size))
		a.sum = hash.Sum(nil)
	}
	if err != nil {
		a.close()
		return err
	}
	opened.RegisterDecompressor(zstd.ZipMethodWinZip, zstd.ZipDecompressor(zstd.WithDecoderMaxMemory(maxWindow), zstd.WithDecoderConcurrency(1)))
	a.opened = opened
	return nil
}

func (a *archive) close() {
	if a == nil {
		return
	}
	if a.file != nil {
		a.file.Close()
	}
	a.opened, a.file = nil, nil
}

// members lists what is to be read of an archive in path order, and notes what
// is not. A file that is none, or a workbook, which is an archive inside, has no
// members: as a file it is refused with a reason.
func (a *archive) members(name string) (files []*file, notes []Note, err error) {
	if err := a.open(); err != nil {
		return nil, nil, err
	}
	defer a.close()
	if len(a.opened.File) > mostMembers {
		return nil, nil, fmt.Errorf("%d files in the archive, of at most %d", len(a.opened.File), mostMembers)
	}
	var results []string // folders that a run of the program left
	for _, member := range a.opened.File {
		switch base := path.Base(memberName(member)); {
		case memberName(member) == "[Content_Types].xml", memberName(member) == "mimetype":
			return nil, nil, errWorkbook
		case base == ResultMarker:
			results = append(results, path.Dir(memberName(member)))
		}
	}
	slices.Sort(results)
	for _, folder := range slices.Compact(results) {
		notes = append(notes, Note{File: path.Join(name, folder), Text: "passed over: results of an earlier run"})
	}
	for at, member := range a.opened.File {
		inside := memberName(member)
		switch {
		case strings.HasSuffix(inside, "/"), isHidden(inside), slices.ContainsFunc(results, func(folder string) bool { return folder == "." || strings.HasPrefix(inside, folder+"/") }):
		case !member.Mode().IsRegular():
			notes = append(notes, Note{File: path.Join(name, inside), Text: "passed over: not a regular file"})
		default:
			files = append(files, &file{name: path.Join(name, inside), archive: a, member: at, onDisk: int64(member.UncompressedSize64), dates: unsettled})
		}
	}
	slices.SortStableFunc(files, func(a, b *file) int { return strings.Compare(a.name, b.name) })
	return files, notes, nil
}

// archiveProblem is what is wrong with an archive as a file.
func archiveProblem(err error) *fileProblem {
	if errors.Is(err, errWorkbook) {
		return &fileProblem{text: "a workbook: save the sheet as CSV"}
	}
	return &fileProblem{text: "a zip archive that cannot be opened: " + strings.TrimPrefix(err.Error(), "zip: "), hint: "copy the file again, it may be cut or damaged"}
}

var errWorkbook = errors.New("a workbook")

// memberName is a member's path, whatever system packed it. It is used as a
// name only.
func memberName(member *zip.File) string {
	return strings.TrimLeft(strings.ReplaceAll(validText([]byte(member.Name)), `\`, "/"), "/")
}

// isHidden tells what no folder would be read for: names with a dot before
// them, and what one system adds to archives of its own accord.
func isHidden(name string) bool {
	for part := range strings.SplitSeq(strings.TrimSuffix(name, "/"), "/") {
		if strings.HasPrefix(part, ".") || part == "__MACOSX" {
			return true
		}
	}
	return false
}

// openMember opens a member as a stream.
func (a *archive) openMember(at int) (io.ReadCloser, error) {
	if err := a.open(); err != nil {
		return nil, err
	}
	const encrypted = 1
	member := a.opened.File[at]
	if member.Flags&encrypted != 0 {
		return nil, &fileProblem{text: "locked with a password", hint: "unlock the archive first"}
	}
	stream, err := member.Open()
	if err != nil {
		return nil, unpackingProblem("zip", notEnd(err))
	}
	return &unpacked{Reader: stream, packed: func() int64 { return int64(member.CompressedSize64) }, kind: "zip", close: stream.Close}, nil
}

// unpackingProblem is what is wrong with compressed data; an error of the disk, or
// of a run that is ended, stays what it is.
func unpackingProblem(kind string, err error) error {
	var disk *fs.PathError
	var problem *fileProblem
	if errors.Is(err, io.EOF) || errors.Is(err, context.Canceled) || errors.As(err, &disk) || errors.As(err, &problem) {
		return err
	}
	return &fileProblem{
		text: fmt.Sprintf("packed with %s, and cannot be unpacked: %s", kind, strings.TrimPrefix(err.Error(), kind+": ")),
		hint: "copy the file again, it may be cut or damaged",
	}
}
