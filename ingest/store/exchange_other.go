//go:build !linux && !darwin

package store

import "errors"

func exchange(string, string) error { return errors.ErrUnsupported }
