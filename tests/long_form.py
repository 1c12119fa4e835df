"""Whether the tests run in their long form: EARTHWALL_WHOLE=1 in the environment. By default a matrix is tried once in
every row and every column, and what is drawn at random is drawn less often."""

from __future__ import annotations

import os

WHOLE = os.environ.get("EARTHWALL_WHOLE") == "1"
