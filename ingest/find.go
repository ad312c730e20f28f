package ingest

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"roundmill/ingest/ordered"
)

// ResultMarker is the file by which a result folder of the program is known;
// such folders are not read as logs.
const ResultMarker = "run.json"

// maxFiles is how many files may be read at once.
const maxFiles = 100_000

// neverLogs are the endings of files that lie beside logs in folders and are none.
var neverLogs = []string{".gif", ".heic", ".jpeg", ".jpg", ".mov", ".mp4", ".pdf", ".png", ".webp"}

// FromTheTop tells a path that begins at the top of a disk, which on Windows need
// not be named: the folders in it are nobody's business in results that are
// passed on.
func FromTheTop(path string) bool {
	return filepath.IsAbs(path) || strings.HasPrefix(filepath.ToSlash(path), "/")
}

// shortName is how a file found under an argument is called: as the user would,
// but without the folders above a path from the top.
func shortName(argument, path string) string {
	if FromTheTop(argument) {
		if name, err := filepath.Rel(filepath.Dir(filepath.Clean(argument)), path); err == nil {
			path = name
		}
	}
	return filepath.ToSlash(filepath.Clean(path))
}

// matched puts in the place of a pattern such as *.csv what it matches: not every
// shell does.
func matched(paths []string) (names []string) {
	for _, path := range paths {
		found := []string{path}
		if _, err := os.Lstat(path); err != nil && strings.ContainsAny(path, "*?") {
			if files, err := filepath.Glob(path); err == nil && len(files) > 0 {
				found = files
			}
		}
		names = append(names, found...)
	}
	return names
}

// findFiles lists the files under the given paths, folders in path order. What
// is no regular file, by its name no log, or the program's own result folder, is
// passed over with a note, what is hidden without one. Standard input ("-") is
// copied to a file in scratch, so that it can be read twice.
// More than most files are an error.
func findFiles(ctx context.Context, paths []string, stdin io.Reader, scratch string, most int) (files []*file, notes []Note, err error) {
	seen := map[string]bool{}
	named := map[string]int{}
	add := func(name, path string, info fs.FileInfo) {
		clean := filepath.Clean(path)
		if seen[clean] {
			return
		}
		seen[clean] = true
		found := []*file{{name: name, path: path, onDisk: info.Size(), modified: info.ModTime(), dates: unsettled}}
		if isZip(path) {
			members, said, err := (&archive{path: path}).members(name)
			if err == nil {
				found, notes = members, append(notes, said...)
			} else {
				found[0].unreadable = archiveProblem(err)
			}
		}
		for _, f := range found {
			if named[f.name]++; named[f.name] > 1 {
				f.name = fmt.Sprintf("%s (%d)", f.name, named[f.name])
			}
			files = append(files, f)
		}
	}
	for _, path := range matched(paths) {
		if path == "-" {
			if seen[path] {
				continue
			}
			seen[path] = true
			copied, err := keepInput(ctx, stdin, scratch)
			if err != nil {
				return nil, nil, fmt.Errorf("standard input: %w", err)
			}
			info, err := os.Stat(copied)
			if err != nil {
				return nil, nil, err
			}
			add("standard input", copied, info)
			continue
		}
		info, err := os.Stat(path)
		if errors.Is(err, fs.ErrNotExist) || err != nil && strings.ContainsAny(path, "*?") {
			return nil, nil, fmt.Errorf("%s: %w; check the name, and the folder it is in", path, fs.ErrNotExist)
		}
		if err != nil {
			return nil, nil, err
		}
		if info.Mode().IsRegular() {
			add(shortName(path, path), path, info)
			continue
		}
		if !info.IsDir() {
			return nil, nil, fmt.Errorf("%s: neither a file nor a folder", path)
		}
		shots := "" // where the shots are, in the results of an earlier run
		// A trailing separator makes WalkDir follow a link given by name.
		top := path + string(filepath.Separator)
		err = filepath.WalkDir(top, func(path string, entry fs.DirEntry, err error) error {
			passedOver := func(why string) {
				notes = append(notes, Note{File: shortName(top, path), Text: "passed over: " + why})
			}
			switch {
			case ctx.Err() != nil:
				return ctx.Err()
			case err != nil:
				passedOver(reason(err))
				if entry != nil && entry.IsDir() {
					return fs.SkipDir
				}
			case path != top && strings.HasPrefix(entry.Name(), "."):
				if entry.IsDir() {
					return fs.SkipDir
				}
			case entry.IsDir():
				if _, err := os.Stat(filepath.Join(path, ResultMarker)); err == nil {
					if path != top {
						passedOver("results of an earlier run")
						return fs.SkipDir
					}
					shots = filepath.Join(top, "tables", "shots")
				}
				if shots != "" && !isWithin(path, shots) && !isWithin(shots, path) {
					return fs.SkipDir
				}
			case shots != "" && !isWithin(path, shots): // beside the shots of results
			case !entry.Type().IsRegular():
				passedOver("not a regular file")
			case slices.Contains(neverLogs, strings.ToLower(filepath.Ext(path))):
				passedOver("a picture, film or PDF")
			default:
				info, err := entry.Info()
				if err != nil {
					passedOver(reason(err))
					return nil
				}
				add(shortName(top, path), path, info)
			}
			if len(files)+len(notes) > most {
				return fmt.Errorf("%s: more than %d files: name fewer folders at a time, or join the logs", filepath.Dir(path), most)
			}
			return nil
		})
		if err != nil {
			return nil, nil, err
		}
	}
	return files, notes, nil
}

func isWithin(path, folder string) bool {
	separator := string(filepath.Separator)
	return strings.HasPrefix(filepath.Clean(path)+separator, filepath.Clean(folder)+separator)
}

// isZip tells a zip archive by its first bytes. What cannot be read is told when
// the file is.
func isZip(path string) bool {
	opened, err := os.Open(path)
	if err != nil {
		return false
	}
	defer opened.Close()
	var start [4]byte
	_, err = io.ReadFull(opened, start[:])
	return err == nil && (string(start[:]) == "PK\x03\x04" || string(start[:]) == "PK\x05\x06")
}

func reason(err error) string {
	var pathError *fs.PathError
	if errors.As(err, &pathError) {
		return pathError.Err.Error()
	}
	return err.Error()
}

// keepInput copies standard input to a file. It does not wait for input that may
// never come when ctx ends, and closes the file whatever happens: on Windows it
// could not be removed else.
func keepInput(ctx context.Context, from io.Reader, scratch string) (name string, err error) {
	copied, err := os.CreateTemp(scratch, "stdin-")
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, copied.Close()) }()
	err = ordered.Until(ctx, func() error {
		_, err := io.Copy(copied, from)
		return err
	})
	return copied.Name(), err
}
