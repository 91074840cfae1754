"""With what a result was computed: versions of Python and the libraries, and a hash of linelib's own files."""

from __future__ import annotations

import hashlib
import platform
from importlib.metadata import version
from pathlib import Path

LIBRARY = Path(__file__).resolve().parent.parent


def content_hash(folder: Path = LIBRARY) -> str:
    """The first 16 digits of a SHA-256 over names and contents of all Python files in `folder`; line ends do not count."""
    digest = hashlib.sha256()
    for path in sorted(folder.rglob("*.py"), key=lambda path: path.relative_to(folder).as_posix()):
        content = path.read_bytes().replace(b"\r\n", b"\n")
        digest.update(f"{path.relative_to(folder).as_posix()} {len(content)}\n".encode() + content)
    return digest.hexdigest()[:16]


def versions() -> dict[str, str]:
    """Versions by name."""
    libraries = {name: version(name) for name in ("numpy", "scipy", "matplotlib")}
    return {"linelib": f"content {content_hash()}", "python": platform.python_version(), **libraries}
