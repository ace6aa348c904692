#!/usr/bin/env python3
"""Rivets for a few stacks, from the shared library by way of ctypes.

    python3 rivet_lengths.py [LIBRARY]

Prints one line a stack: the layers, the part number or why there is none, and what has to be looked at first.
"""

import ctypes
import sys
from ctypes import POINTER, byref, c_char_p, c_double, c_int64, c_size_t, c_uint32

NONE = -(2**63)
MAX_FINDINGS = 12
TEXT_MAX = 512
ABI_VERSION = 2
BUILT_IN_HANDBOOK = 1
ROLE_SKIN = 1
PREPARATION_PLAIN, PREPARATION_COUNTERSUNK = 1, 2
LIST_CODE = 3
SEVERITY_REFER = 3
READING_TOLERANCED, READING_PART = 2, 6

STACKS = [
    ("MS20470AD4", [".032", ".040"]),
    ("MS20470AD4", [".032", ".040", ".125"]),
    ("MS20470AD5", [".032+-.002", ".040+-.002", ".250+-.005"]),
    ("MS20426AD4", [".050", ".063"]),
    ("MS20470AD7", [".032", ".040"]),
    ("MS20470AD4", [".032", "0,040"]),
]


class Text(ctypes.Structure):
    _fields_ = [("start", ctypes.c_void_p), ("length", c_size_t)]

    def __str__(self):
        return ctypes.string_at(self.start, self.length).decode() if self.length else ""


class Toleranced(ctypes.Structure):
    _fields_ = [("min_nm", c_int64), ("nominal_nm", c_int64), ("max_nm", c_int64)]


class Range(ctypes.Structure):
    _fields_ = [("min_nm", c_int64), ("max_nm", c_int64)]


class Basis(ctypes.Structure):
    _fields_ = [("document", Text), ("place", Text), ("status", c_uint32)]


class Given(ctypes.Structure):
    _fields_ = [("nm", c_int64), ("basis", Basis)]


class Figure(ctypes.Structure):
    _fields_ = [("kind", c_uint32), ("whole", c_int64), ("number", c_double)]


class Finding(ctypes.Structure):
    _fields_ = [
        ("code", c_uint32),
        ("severity", c_uint32),
        ("layer", c_uint32),
        ("measured", Figure),
        ("limit", Figure),
        ("basis", Basis),
    ]


class Span(ctypes.Structure):
    _fields_ = [("first", c_uint32), ("count", c_uint32), ("complete", c_uint32)]


class Part(ctypes.Structure):
    _fields_ = [("series", c_uint32), ("alloy", c_uint32), ("dash", c_uint32), ("finish", c_uint32), ("length_nm", c_int64)]


class Practice(ctypes.Structure):
    _fields_ = [("built_in", c_uint32), ("unused", c_uint32), ("own", ctypes.c_void_p), ("own_count", c_size_t)]


class Layer(ctypes.Structure):
    _fields_ = [
        ("thickness", Toleranced),
        ("material", c_uint32),
        ("role", c_uint32),
        ("preparation", c_uint32),
        ("unused", c_uint32),
    ]


class Query(ctypes.Structure):
    _fields_ = [("part", Part), ("grip", Toleranced), ("hole", Toleranced), ("practice", Practice)]


class Predicted(ctypes.Structure):
    _fields_ = [("diameter", Toleranced), ("height_nm", c_int64)]


class Choice(ctypes.Structure):
    _fields_ = [
        ("length_nm", c_int64),
        ("shortest", Given),
        ("longest", Given),
        ("longest_by", c_uint32),
        ("difference", c_uint32),
        ("rule_of_thumb_nm", c_int64),
        ("rule_of_thumb_length_nm", c_int64),
        ("fill_nm", c_int64),
        ("protrusion", Range),
        ("head", Predicted),
        ("findings", Span),
    ]


class Refused(Exception):
    """What the library answers in place of a result."""


class Library:
    """The functions that this script calls; every answer other than 0 is raised as `Refused`."""

    def __init__(self, path):
        library = ctypes.CDLL(path)
        text_in, text_out = [c_char_p, c_size_t], [c_char_p, c_size_t, POINTER(c_size_t)]
        takes = {
            "error_message": [c_uint32, *text_out],
            "explain": [c_uint32, c_uint32, *text_in, *text_out],
            "word": [c_uint32, c_uint32, POINTER(Text)],
            "toleranced_parse": [*text_in, POINTER(Toleranced)],
            "part_parse": [*text_in, POINTER(Part), POINTER(c_uint32)],
            "part_print": [POINTER(Part), *text_out],
            "part_with_length": [POINTER(Part), c_int64, POINTER(Part)],
            "stack_grip": [POINTER(Layer), c_size_t, POINTER(Toleranced)],
            "practice_hole": [POINTER(Practice), POINTER(Part), POINTER(Toleranced), POINTER(Basis)],
            "length_choose": [POINTER(Query), POINTER(Choice), POINTER(Finding), c_size_t],
        }
        for name, types in takes.items():
            function = getattr(library, "shophead_" + name)
            function.argtypes, function.restype = types, c_uint32
            setattr(self, name, self.checked(function))
        library.shophead_abi_version.restype = c_uint32
        if library.shophead_abi_version() != ABI_VERSION:
            sys.exit("the library has another version than this script was written for")

    def checked(self, function):
        def call(*arguments):
            error = function(*arguments)
            if error:
                raise Refused(self.printed(self.error_message, error))

        return call

    @staticmethod
    def printed(function, *arguments):
        buffer, length = ctypes.create_string_buffer(TEXT_MAX), c_size_t()
        function(*arguments, buffer, TEXT_MAX, byref(length))
        return buffer.value.decode()

    def read(self, function, reading, text, *places):
        """Reads a text; where that fails, the library's own explanation is raised."""
        data = text.encode()
        try:
            function(data, len(data), *places)
        except Refused:
            raise Refused(f"{text}: {self.printed(self.explain, reading, 0, data, len(data))}") from None


def choose(library, number, thicknesses):
    """The part number for a stack and the words of what must be referred."""
    query, choice, findings = Query(), Choice(), (Finding * MAX_FINDINGS)()
    query.practice.built_in = BUILT_IN_HANDBOOK
    library.read(library.part_parse, READING_PART, number, byref(query.part), byref(c_uint32()))
    layers = (Layer * len(thicknesses))()
    for layer, thickness in zip(layers, thicknesses):
        library.read(library.toleranced_parse, READING_TOLERANCED, thickness, byref(layer.thickness))
        layer.role, layer.preparation = ROLE_SKIN, PREPARATION_PLAIN
    library.stack_grip(layers, len(layers), byref(query.grip))
    library.practice_hole(byref(query.practice), byref(query.part), byref(query.hole), byref(Basis()))
    library.length_choose(byref(query), byref(choice), findings, MAX_FINDINGS)
    words = []
    for finding in findings[choice.findings.first : choice.findings.first + choice.findings.count]:
        word = Text()
        library.word(LIST_CODE, finding.code, byref(word))
        words.append(str(word).upper() if finding.severity == SEVERITY_REFER else str(word))
    if choice.length_nm == NONE:
        return "no length", words
    part = Part()
    library.part_with_length(byref(query.part), choice.length_nm, byref(part))
    return library.printed(library.part_print, byref(part)), words


def main():
    library = Library(sys.argv[1] if len(sys.argv) > 1 else "libshophead.so.2")
    for number, thicknesses in STACKS:
        try:
            chosen, words = choose(library, number, thicknesses)
        except Refused as refused:
            chosen, words = str(refused), []
        print(f"{' '.join(thicknesses):32} {chosen}" + (f"  ({', '.join(words)})" if words else ""))


if __name__ == "__main__":
    main()
