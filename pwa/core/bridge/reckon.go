package bridge

import "sinkside/calc/reckoning"

// reckonList gives all reckonings with their inputs, for forms to be drawn from.
//
//	out  payload: [Reckoning]
func reckonList(k *call) error {
	k.body = reckoning.AppendList(nil)
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
	k.body, _ = reckoning.Answer(nil, name, k.payload)
	return nil
}
