// Package study asks the questions that clampheat answers about a scenario:
// how hot when left on (RunSteady), how fast (RunSoak), how hot under a load that
// repeats (RunDuty), how the file was understood (RunCheck), and which of several
// stacks runs cooler and why (RunCompare). Each question has one result type that
// every output reads.
//
// A settled headline carries a range, careful … careless: the same stack
// solved with the ohms of all joints and of the fuse at the low, and at the
// high end of their ranges. The assumptions that move the headline most are
// found by solving again with each at both ends of its range.
//
// A load or an air that changes is left on at its largest, and at its hottest, in
// every question but those of RunSoak and RunDuty. Where the current divides, it
// is a part's own current that its fuse, its cable and its joints are held against,
// and each way side by side is opened in turn.
//
// RunLevers solves again for each realistic change, and gives the derivatives
// of the headline by everything from one adjoint solve.
package study
