package job

import "strings"

// A Fault is one thing in a job file that cannot be used.
type Fault struct {
	Path     string `json:"path"`     // of the key, such as routes[0].stretches[2].tube; "" for the file itself
	Holds    string `json:"holds"`    // what stands there
	Accepted string `json:"accepted"` // what may stand there
}

// Faults are all the faults of a file, in its order. They are an error.
type Faults []Fault

// Error lists the faults, one a line.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, one := range f {
		lines[i] = one.String()
	}
	return strings.Join(lines, "\n")
}

// String returns the fault as one line.
func (f Fault) String() string {
	path := f.Path
	if path == "" {
		path = "the file"
	}
	return path + " holds " + f.Holds + "; accepted: " + f.Accepted
}

// err returns nil for no faults.
func (f Faults) err() error {
	if len(f) == 0 {
		return nil
	}
	return f
}
