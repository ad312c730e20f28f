//go:build !linux

package store

func exchange(staging, place string) error { return exchangeByPair(staging, place) }
