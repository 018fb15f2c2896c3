// Package folder opens a study: the folder with its study.toml, the task logs
// under timings/ and the stopwatch's journals under journal/.
//
// study.toml is read strictly. An unknown key, a wrong type, a name that
// nothing defines, a value out of range, a duplicate name and keys that
// contradict each other are problems, each with its place, and all of them are
// given at once. So are those of the logs and journals: nothing is computed from
// a study that has any.
package folder
