"""Talks to an instrument on a serial path with PyVISA (pyvisa-py) and with pySerial alone.

Prints one JSON object: what each of them read. Used to show that the pretend bench speaks SCPI
to programs that know nothing of this project.
"""
import json
import sys

import pyvisa
import serial

path, ending = sys.argv[1], sys.argv[2].encode().decode("unicode_escape")
queries = sys.argv[3:]

visa = pyvisa.ResourceManager("@py").open_resource(f"ASRL{path}::INSTR")
visa.read_termination = ending
visa.write_termination = "\n"
visa.timeout = 3000
by_visa = [visa.query(query) for query in queries]
numbers = visa.query_ascii_values(queries[1], separator=";")
visa.close()

with serial.Serial(path, 9600, timeout=3) as port:
    by_serial = []
    for query in queries:
        port.write(query.encode("ascii") + b"\n")
        by_serial.append(port.readline().decode("ascii"))

print(json.dumps({"visa": by_visa, "numbers": numbers, "serial": by_serial}))
