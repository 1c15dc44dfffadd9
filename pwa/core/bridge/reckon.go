package bridge

import "sinkside/calc/reckoning/library"

// reckonList gives all reckonings with their inputs, for forms to be drawn from.
//
//	out  payload: [Reckoning]
func reckonList(k *call) error {
	k.body = library.All().Append(nil)
	return nil
}

// reckonRun reckons.
//
//	in   name; payload: the inputs
//	out  payload: Result, or {"problems":[Problem]}
func reckonRun(k *call) error {
	name := k.args.text("name")
	if k.args.err != nil {
		return k.args.err
	}
	k.body, _ = library.All().Answer(nil, name, k.payload)
	return nil
}
