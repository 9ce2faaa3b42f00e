module ripen

go 1.26.8
