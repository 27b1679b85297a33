"""A drawing that carries its pattern's document: what was changed in the drawing since, put into the document."""

from notchwork.recognise.reconcile.fineness import fineness as fineness
from notchwork.recognise.reconcile.reconcile import reconcile as reconcile
