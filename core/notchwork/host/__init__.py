"""Where the program can be extended, and what all its plugins declare."""

from notchwork.host.hookspecs import hookimpl as hookimpl
from notchwork.host.installed import GROUP as GROUP
from notchwork.host.plugins import plugin_names as plugin_names
from notchwork.host.registry import Registry as Registry
from notchwork.host.registry import registry as registry
