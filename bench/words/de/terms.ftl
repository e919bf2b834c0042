# What every room may refer to.

