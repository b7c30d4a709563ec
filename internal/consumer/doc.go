// Package consumer tests the module as its users meet it: from another module,
// through a replace directive, with the library packages alone.
package consumer
