module example.com/hydronics

go 1.26
