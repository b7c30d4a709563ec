// Package job holds the job file, which describes one installation, and its
// assessment: every calculation of the library composed into findings that an
// engineer can check and sign.
//
// # The job file
//
// A job file is one JSON object. Its definition is the Go type [Job] and nothing
// else: the struct tags of its fields carry the key, the kind of quantity, the
// limits and a line of explanation. [Decode], [Schema] and [Guide] read the same
// tags, so that the program, the editor and the companion text never disagree.
//
// Keys end in the unit of their number (flow_l_min, relief_set_bar), and there is
// one key for each quantity. Unknown keys, keys that occur twice, numbers outside
// their limits and missing keys are refused, all of them at once, each with its
// path, what it holds and what is accepted. After decoding all numbers are SI.
//
// # The assessment
//
// [Assess] turns a Job into a [Sheet]: figures and findings without formatted
// text. It owns no physics. One file holds one part of the installation:
// primary.go, circuits.go, mixing.go, vessel.go, inlet.go, relief.go, frost.go,
// hotwater.go, arrangement.go.
//
// Every finding has an id, on which programs may rely: identity.go holds the ids in
// a table, by the words of the rules, and a test holds the table complete. To word a
// rule anew is to change the words in its package and in the table. The table was
// chosen over ids that each package gives to its findings, since only a sheet knows
// which rules it asks of several parts.
package job
