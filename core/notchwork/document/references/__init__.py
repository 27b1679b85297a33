"""References of a document: whether everything that is named is there, all faults at once."""

from notchwork.document.references.judge import reference_faults as reference_faults
