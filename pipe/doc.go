package pipe
