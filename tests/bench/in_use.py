"""Runs a program and writes down each of its functions that runs, by the name the linker knows it by.

    in_use.py LIST PROGRAM [ARGUMENT]...

Every function begins with a trap, which is taken out when it goes off. So each is seen once and the program is as fast as
ever; a profiler that looks now and then would miss most of them. For Linux on x86-64 and AArch64; the program has to
have its names, that is, be built with CARGO_PROFILE_RELEASE_STRIP=none.
"""

import ctypes
import os
import platform
import signal
import struct
import subprocess
import sys

TRAPS = {"x86_64": b"\xcc", "aarch64": struct.pack("<I", 0xD4200000)}
# Where the program counter stands among the registers. On x86-64 it is already behind the trap.
COUNTERS = {"x86_64": 16 * 8, "aarch64": 32 * 8}
TRACEME, CONT, SETOPTIONS, GETREGSET, SETREGSET = 0, 7, 0x4200, 0x4204, 0x4205
FOLLOW_CLONES, END_WITH_US = 0x8, 0x100000
ALL_THREADS = 0x40000000
GENERAL_REGISTERS = 1


class Vector(ctypes.Structure):
    _fields_ = [("base", ctypes.c_void_p), ("len", ctypes.c_size_t)]


libc = ctypes.CDLL(None, use_errno=True)
libc.ptrace.argtypes = [ctypes.c_long, ctypes.c_long, ctypes.c_void_p, ctypes.c_void_p]
libc.ptrace.restype = ctypes.c_long


def functions(program):
    """The functions of a program: its own addresses to names."""
    table = subprocess.run(["nm", "--defined-only", "-S", program], capture_output=True, text=True, check=True)
    lines = (line.split() for line in table.stdout.splitlines())
    found = {int(line[0], 16): line[3] for line in lines if len(line) == 4 and line[2] in "tTwW"}
    if not found:
        sys.exit(f"{program} has no names; build it with CARGO_PROFILE_RELEASE_STRIP=none")
    return found


def set_traps(process, memory, program, names, trap):
    """Puts a trap at the head of each function; gives what stood there and the names by where they lie now."""
    maps = [line.split() for line in open(f"/proc/{process}/maps")]
    mine = [line for line in maps if line[-1] == os.path.realpath(program)]
    base = min(int(line[0].split("-")[0], 16) for line in mine)
    before, placed = {}, {}
    for line in mine:
        if "x" not in line[1]:
            continue
        start, end = (int(part, 16) for part in line[0].split("-"))
        memory.seek(start)
        code = memory.read(end - start)
        trapped = bytearray(code)
        for address, name in names.items():
            at = base + address - start
            if 0 <= at < len(code):
                before[start + at] = code[at : at + len(trap)]
                placed[start + at] = name
                trapped[at : at + len(trap)] = trap
        memory.seek(start)
        memory.write(trapped)
    return before, placed


def main():
    listed, program = sys.argv[1], sys.argv[2]
    machine = platform.machine()
    trap, counter = TRAPS[machine], COUNTERS[machine]
    names = functions(program)

    process = os.fork()
    if process == 0:
        libc.ptrace(TRACEME, 0, None, None)
        os.execv(program, sys.argv[2:])
    os.waitpid(process, 0)
    libc.ptrace(SETOPTIONS, process, None, FOLLOW_CLONES | END_WITH_US)
    memory = open(f"/proc/{process}/mem", "r+b", buffering=0)
    before, placed = set_traps(process, memory, program, names, trap)
    signal.signal(signal.SIGTERM, lambda *_: os.kill(process, signal.SIGTERM))

    registers = ctypes.create_string_buffer(1024)
    seen = set()
    with open(listed, "w") as out:
        libc.ptrace(CONT, process, None, None)
        while True:
            thread, status = os.waitpid(-1, ALL_THREADS)
            if not os.WIFSTOPPED(status):
                if thread == process:
                    break
                continue
            passed_on = os.WSTOPSIG(status)
            if passed_on == signal.SIGTRAP and status >> 16 == 0:
                whole = Vector(ctypes.addressof(registers), len(registers))
                libc.ptrace(GETREGSET, thread, GENERAL_REGISTERS, ctypes.addressof(whole))
                at = struct.unpack_from("<Q", registers, counter)[0] - (1 if machine == "x86_64" else 0)
                if at in before:
                    # Two threads may have met the same trap.
                    if at not in seen:
                        seen.add(at)
                        memory.seek(at)
                        memory.write(before[at])
                        out.write(placed[at] + "\n")
                    struct.pack_into("<Q", registers, counter, at)
                    libc.ptrace(SETREGSET, thread, GENERAL_REGISTERS, ctypes.addressof(whole))
                    passed_on = 0
            elif passed_on in (signal.SIGTRAP, signal.SIGSTOP):
                passed_on = 0
            libc.ptrace(CONT, thread, None, passed_on)


main()
