package hydronics

// Version is the version of the module, for sheets and reports that have to
// say what computed them.
const Version = "0.1.0"
