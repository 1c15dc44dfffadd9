package bridge

import "sinkside/calc/watch"

// reckonRun reckons by one of the reckonings that a watch needs; the library of
// all is a module of its own.
//
//	in   name; payload: the inputs
//	out  payload: Result, or {"problems":[Problem]}
func reckonRun(k *call) error {
	name := k.args.text("name")
	if k.args.err != nil {
		return k.args.err
	}
	k.body, _ = watch.Reckonings().Answer(nil, name, k.payload)
	return nil
}
