"""The engine: a program that has never heard of wbgen evaluates the file's own formulas, in a process of its own.

In goes the path of a workbook, then the day to evaluate it for. Out come the values of its cells, or UnsafeFile.

Open `process` first: it starts the other process, which is `__main__`, and has the limits of memory and time. So no
formula takes the machine, a reader that dies is a message, and the other core reads the file meanwhile. `evaluate` is
what is done there, by formualizer.
"""
