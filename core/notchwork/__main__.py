"""``python -m notchwork``."""

from __future__ import annotations

import sys

from notchwork.cli import main

sys.exit(main())
