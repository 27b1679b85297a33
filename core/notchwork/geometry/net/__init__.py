"""Lines cut where they touch or cross each other, and the faces between them."""

from notchwork.geometry.net.faces import Face, faces, united
from notchwork.geometry.net.net import Arc, Gap, Net, net

__all__ = ["Arc", "Face", "Gap", "Net", "faces", "net", "united"]
