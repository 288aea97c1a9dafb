"""A device that answers every line at once: the fastest that a pseudo-terminal lets it."""
import os

ANSWERS = {
    b"*IDN?": b"BENCH,RESPONDER,0,1",
    b"SYST:ERR?": b'0,"No error"',
    b"MEAS:VOLT?;CURR?": b"12.000;0.231",
    b"MEAS:VOLT?;:MEAS:CURR?": b"12.000;0.231",
    b"MEAS:VOLT?": b"12.000",
    b"MEAS:CURR?": b"0.231",
    b"OUTP?": b"1",
    b"STAT:QUES:COND?": b"2",
    b"READ?": b"+3.30120000E+00",
    b"VOLT?": b"12.000",
    b"CURR?": b"2.000",
    b"VOLT? MAX": b"30.0",
    b"CURR? MAX": b"5.0",
}
held = b""
while True:
    piece = os.read(0, 4096)
    if not piece:
        break
    held += piece
    while b"\n" in held:
        line, held = held.split(b"\n", 1)
        line = line.strip().lstrip(b":")
        if line in ANSWERS:
            os.write(1, ANSWERS[line] + b"\n")
        elif line.endswith(b"?"):
            os.write(1, b"0\n")
