//go:build !windows

package disk

// patiently does it at once: what is open can be moved and removed.
func patiently(do func() error) error { return do() }
