// Package sample writes the invented sample studio, Marram House Textile Studio, so that a person
// who has just started Sinkside finds a finished treatment, one in the middle and one that waits.
//
// Nothing in it happened. Every treatment is opened with "sample": true and written by two sample
// devices with fixed IDs, the phone and the tablet of the invented Runa Vell (RV) and Osk Tarrin
// (OT). Treatments get new IDs each time, so a sample that is removed and added again can never
// look like a fork to a phone that knew the first.
//
// [Remove] takes out every treatment that only the sample devices wrote in. One in which anybody
// else wrote a single entry is a real record by then, and is kept.
package sample
