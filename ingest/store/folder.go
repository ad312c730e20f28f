package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// A Folder is a folder of results under construction. It is built beside its
// place under another name and appears there whole, or not at all.
type Folder struct {
	place   string
	staging string
	scratch string
	ours    func(folder string) error
}

// NewFolder starts a folder that will stand at place. A folder that stands
// there already is replaced on Publish only if ours says that it may be; that
// is asked now and again then.
func NewFolder(place string, ours func(folder string) error) (*Folder, error) {
	place = filepath.Clean(place)
	f := &Folder{place: place, ours: ours}
	if err := f.mayReplace(); err != nil {
		return nil, err
	}
	parent := filepath.Dir(place)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return nil, err
	}
	staging, err := os.MkdirTemp(parent, "."+filepath.Base(place)+".building-")
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(staging, 0o755); err != nil {
		return nil, errors.Join(err, os.RemoveAll(staging))
	}
	f.staging = staging
	if f.scratch, err = os.MkdirTemp(parent, "."+filepath.Base(place)+".scratch-"); err != nil {
		return nil, errors.Join(err, f.Discard())
	}
	return f, nil
}

// Scratch is a folder for temporary files, on the same disk.
func (f *Folder) Scratch() string { return f.scratch }

// Path is where to write a file of the folder while it is under construction;
// the folders on the way are made.
func (f *Folder) Path(name string) (string, error) {
	path := filepath.Join(f.staging, filepath.FromSlash(name))
	return path, os.MkdirAll(filepath.Dir(path), 0o755)
}

// WriteFile writes a small file of the folder and syncs it.
func (f *Folder) WriteFile(name string, content []byte) error {
	path, err := f.Path(name)
	if err != nil {
		return err
	}
	if err := os.WriteFile(path, content, 0o644); err != nil {
		return err
	}
	return syncFile(path)
}

// Publish syncs the folder and puts it in its place. An older folder there is
// gone afterwards.
func (f *Folder) Publish() error {
	err := filepath.WalkDir(f.staging, func(path string, entry fs.DirEntry, err error) error {
		if err == nil && entry.IsDir() {
			err = syncFolder(path)
		}
		return err
	})
	if err != nil {
		return err
	}
	if err := f.mayReplace(); err != nil {
		return err
	}
	old := f.staging
	if _, err := os.Lstat(f.place); errors.Is(err, fs.ErrNotExist) {
		if err := os.Rename(f.staging, f.place); err != nil {
			return err
		}
		old = ""
	} else if err := exchange(f.staging, f.place); err != nil {
		return err
	}
	if err := syncFolder(filepath.Dir(f.place)); err != nil {
		return fmt.Errorf("%s: the new results are in place, but not known to be safe on the disk: %w", f.place, err)
	}
	f.staging = old
	return f.Discard()
}

// Discard removes what is under construction and the scratch folder. It may be
// called after Publish.
func (f *Folder) Discard() error {
	var err error
	for _, folder := range []string{f.staging, f.scratch} {
		if folder != "" {
			err = errors.Join(err, os.RemoveAll(folder))
		}
	}
	f.staging, f.scratch = "", ""
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
		return fmt.Errorf("%s: is a file; name a folder with --out", f.place)
	}
	entries, err := os.ReadDir(f.place)
	if err != nil || len(entries) == 0 {
		return err
	}
	return f.ours(f.place)
}

func syncFile(path string) error {
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(file.Sync(), file.Close())
}
