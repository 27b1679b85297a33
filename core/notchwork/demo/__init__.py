"""The example: a village theatre's storm petrel costume in three sizes, once sound and once full of faults."""

from notchwork.demo.example import NAMES as NAMES
from notchwork.demo.example import example as example
from notchwork.demo.example import write as write
