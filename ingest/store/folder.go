package store

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"roundmill/ingest/disk"
)

// A Folder is a folder of results under construction. It is built beside its
// place under another name and appears there whole, or not at all. No two are
// built for one place at once.
type Folder struct {
	Memory  int    // bytes that each of its spools keeps in memory; 0: 4 MB
	name    string // as the user calls it
	place   string
	working string
	disk    disk.Disk
	lock    *lock
	ours    func(folder string) error
}

// NewFolder starts a folder that will stand at the place called name, after it
// cleared up what runs that were killed left beside it. A folder that stands
// there already is replaced on Publish only if ours says that it may be; that
// is asked now and again then. It is an error if another run is at work there.
func NewFolder(name string, disk disk.Disk, ours func(folder string) error) (*Folder, error) {
	place, err := resolve(name)
	if err != nil {
		return nil, err
	}
	f := &Folder{name: name, place: place, disk: disk, ours: ours}
	if err := f.mayReplace(); err != nil {
		return nil, err
	}
	if err := disk.MakeFolder(filepath.Dir(place)); err != nil {
		return nil, err
	}
	if f.lock, err = takeLock(lockPath(place), name); err != nil {
		return nil, err
	}
	if f.lock != nil {
		err = clearLeftovers(disk, place)
	}
	if err == nil {
		err = f.mayReplace() // what stands there now, put back or written meanwhile
	}
	if err == nil {
		f.working = newWorkingPath(place)
		err = errors.Join(disk.MakeFolder(f.newPath()), disk.MakeFolder(f.Scratch().Folder))
	}
	if err != nil {
		return nil, errors.Join(err, f.Discard())
	}
	return f, nil
}

// resolve is the real path of what the user calls name. Where a link leads to
// is replaced, not the link.
func resolve(name string) (string, error) {
	place, err := filepath.Abs(name)
	if err != nil {
		return "", err
	}
	real, err := filepath.EvalSymlinks(place)
	if !errors.Is(err, fs.ErrNotExist) {
		return real, err
	}
	if _, err := os.Lstat(place); err == nil {
		return "", fmt.Errorf("%s: is a link that leads nowhere; name a folder with --out", name)
	}
	return place, nil
}

func (f *Folder) newPath() string { return filepath.Join(f.working, newFolder) }

// Scratch is for temporary files, on the same disk.
func (f *Folder) Scratch() disk.Scratch {
	return disk.Scratch{Disk: f.disk, Folder: filepath.Join(f.working, scratchFolder), Memory: f.Memory}
}

// path is where a file of the folder is while it is under construction.
func (f *Folder) path(name string) string {
	return filepath.Join(f.newPath(), filepath.FromSlash(name))
}

// Create starts a file of the folder; the folders on the way are made.
func (f *Folder) Create(name string) (disk.File, error) {
	if !filepath.IsLocal(filepath.FromSlash(name)) {
		return nil, fmt.Errorf("%s: is no name within a folder", name)
	}
	path := f.path(name)
	if err := f.disk.MakeFolder(filepath.Dir(path)); err != nil {
		return nil, err
	}
	return f.disk.Create(path)
}

// Write writes a file of the folder and syncs it. The file is closed also where
// write panics: on Windows it could not be removed else.
func (f *Folder) Write(name string, write func(io.Writer) error) (err error) {
	file, err := f.Create(name)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, file.Close()) }()
	buffer := bufio.NewWriter(file)
	if err := write(buffer); err != nil {
		return err
	}
	if err := buffer.Flush(); err != nil {
		return err
	}
	return file.Sync()
}

// WriteFile writes a small file of the folder and syncs it.
func (f *Folder) WriteFile(name string, content []byte) error {
	return f.Write(name, func(to io.Writer) error {
		_, err := to.Write(content)
		return err
	})
}

// StartAgain removes what was written so far.
func (f *Folder) StartAgain() error {
	if err := f.disk.Remove(f.newPath()); err != nil {
		return err
	}
	return f.disk.MakeFolder(f.newPath())
}

// Written lists what was written so far.
func (f *Folder) Written() ([]Entry, error) { return List(f.newPath()) }

// Publish syncs the folder and puts it in its place. An older folder there is
// gone afterwards.
func (f *Folder) Publish() error {
	err := filepath.WalkDir(f.newPath(), func(path string, entry fs.DirEntry, err error) error {
		if err == nil && entry.IsDir() {
			err = f.disk.SyncFolder(path)
		}
		return err
	})
	if err != nil {
		return err
	}
	if err := f.mayReplace(); err != nil {
		return err
	}
	if err := f.swap(); err != nil {
		return fmt.Errorf("%s: the new results could not be put in place: %w", f.name, err)
	}
	if err := f.disk.SyncFolder(filepath.Dir(f.place)); err != nil {
		return fmt.Errorf("%s: the new results are in place, but not known to be safe on the disk: %w", f.name, err)
	}
	if err := f.Discard(); err != nil {
		return fmt.Errorf("%s: the new results are in place, but what was beside them is not gone; the next run clears it up: %w", f.name, err)
	}
	return nil
}

// swap puts the new folder in its place, and the old one, if there is one, into
// the working folder: in one step where the system can.
func (f *Folder) swap() error {
	if _, err := os.Lstat(f.place); errors.Is(err, fs.ErrNotExist) {
		return f.disk.Rename(f.newPath(), f.place)
	}
	err := f.disk.Exchange(f.newPath(), f.place)
	if !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	aside := filepath.Join(f.working, oldFolder)
	if err := f.disk.Rename(f.place, aside); err != nil {
		return err
	}
	if err := f.disk.Rename(f.newPath(), f.place); err != nil {
		if back := f.disk.Rename(aside, f.place); back != nil {
			f.working = "" // the next run finds it there and puts it back
			return errors.Join(err, fmt.Errorf("%s: the old results are in %s: %w", f.name, aside, back))
		}
		return err
	}
	return nil
}

// Discard removes what is under construction and lets others at the place. It
// may be called after Publish.
func (f *Folder) Discard() error {
	var err error
	if f.working != "" {
		err = f.disk.Remove(f.working)
	}
	err = errors.Join(err, f.lock.release())
	f.working, f.lock = "", nil
	return err
}

// mayReplace refuses a place that holds anything but results of the program.
func (f *Folder) mayReplace() error {
	info, err := os.Stat(f.place)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.IsDir():
		return fmt.Errorf("%s: is a file; name a folder with --out", f.name)
	}
	entries, err := os.ReadDir(f.place)
	if err != nil || len(entries) == 0 {
		return err
	}
	return f.ours(f.name)
}

// An Entry is a file of a folder.
type Entry struct {
	Name  string `json:"name"` // within the folder, with slashes
	Bytes int64  `json:"bytes"`
}

// List lists all that is in a folder and those below it, in order of name,
// folders themselves left out.
func List(folder string) (entries []Entry, err error) {
	err = filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		info, err := entry.Info()
		if err != nil {
			return err
		}
		name, err := filepath.Rel(folder, path)
		entries = append(entries, Entry{filepath.ToSlash(name), info.Size()})
		return err
	})
	return entries, err
}
