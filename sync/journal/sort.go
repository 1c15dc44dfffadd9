package journal

import "slices"

// SortBy sorts s by cmp, not stably. It sorts pointers: all of them share one
// copy of the standard sort, where each type that is sorted by value gets its
// own, at 3 KB of the phone's download.
func SortBy[T any](s []T, cmp func(a, b *T) int) {
	ptrs := make([]*T, len(s))
	for i := range s {
		ptrs[i] = &s[i]
	}
	slices.SortFunc(ptrs, cmp)
	sorted := make([]T, len(s))
	for i, p := range ptrs {
		sorted[i] = *p
	}
	copy(s, sorted)
}
