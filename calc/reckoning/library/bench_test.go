package library

import "testing"

// BenchmarkExamples asks each reckoning its example, through the door.
func BenchmarkExamples(b *testing.B) {
	for _, r := range All() {
		b.Run(r.Name, func(b *testing.B) {
			for b.Loop() {
				if _, ok := All().Answer(nil, r.Name, []byte(r.Example)); !ok {
					b.Fatal("refused")
				}
			}
		})
	}
}
