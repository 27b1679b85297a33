"""What is told of the words and signs of a drawing: every inference, and what could not be made out."""

from __future__ import annotations

from notchwork.findings import Severity
from notchwork.recognise.rules import inference

PIECE_NAME = inference(
    "piece-name",
    "A piece was named by what is written on it",
    "A drawing has no place for the names of pieces, so they are taken from the text inside, the names of groups and layers, "
    "or the ids of shapes. The name is what every other remark calls the piece.",
)
EDGE_NAME = inference(
    "edge-name",
    "Edges were named",
    "An edge is called by the words beside it, by the id of its own path, or by where it lies on the drawing: top, right, "
    "bottom, left, with numbers where several lie there. Write a name beside an edge to call it otherwise.",
)
NOTCH = inference(
    "notch",
    "Marks on the outline were taken for notches",
    "A short stroke across or on the outline, a small V or U cut into it, or a T on it is a notch; two or three close together "
    "are a double or triple one.",
)
GRAIN = inference(
    "grain",
    "A line was taken for the grainline",
    "A line inside a piece with arrow heads, or with the word beside it, shows the direction of the lengthwise thread.",
)
FOLD = inference(
    "fold",
    "An edge was taken for a fold",
    "A straight edge with the word fold beside it, or drawn in dashes and dots, lies on the fold of the cloth: half the piece "
    "is drawn.",
)
FINISH = inference(
    "finish",
    "The finish of an edge was read from the words beside it",
    "An edge called hem is hemmed; “hem 2 cm”, “waist casing”, “raw”, “bound”, “faced”, “overcast” and “rolled” say what becomes "
    "of an edge that no seam takes. A match label beside it says that it is sewn, and goes before.",
)
FOLD_UNKNOWN = inference(
    "fold-unknown",
    "It is not known which edge lies on the fold",
    "The cut order says that the piece is cut on the fold, but no straight edge is marked as one. Write “fold” beside it.",
    grade=Severity.WARNING,
)
DART = inference(
    "dart",
    "A V was taken for a dart",
    "A V with both feet on one edge and its point inside the piece is a dart: the edge runs across its mouth, and what lies "
    "between the feet is no part of the sewn length.",
)
PLEAT = inference(
    "pleat",
    "Two lines were taken for the folds of a pleat",
    "Two lines that start on one edge, with the word pleat or tuck beside them, take the cloth between them out of the edge.",
)
INNER = inference(
    "inner-line",
    "Lines inside a piece were kept",
    "Lines inside a piece that are no notch, dart or grainline are kept as lines that are drawn and not cut.",
)
MARK = inference(
    "mark",
    "Small circles and crosses were taken for marks",
    "A small circle, cross or point inside a piece marks a place: a button, a drill hole, the point of a dart.",
)
CUT_OUT = inference(
    "cut-out",
    "A closed line inside a piece was taken for a cut-out",
    "A hole in a piece, or a closed line inside it with the words beside it, is cut out.",
)
UNREAD = inference(
    "not-read",
    "Something drawn on a piece was not read",
    "Strokes and points on a piece for which no meaning was found are left out of the pattern; the drawing still has them.",
)
CUT_ORDER = inference(
    "cut-order",
    "A cut order was read from a text",
    "“Cut 2 lining, 1 on fold”, “2x” or “cut 1 pair” says how many copies are cut, from what. An even number without a word "
    "about pairs is taken as cut from doubled cloth, in pairs, as home sewing patterns mean it; “alike” says otherwise.",
)
ALLOWANCE = inference(
    "allowance-text",
    "An allowance was read from a text",
    "A width stated on a piece, or once for the whole drawing, holds for every edge of which no other width is drawn.",
)
SIZES_DIFFER = inference(
    "sizes-differ",
    "A size could not be laid on the others",
    "Every size of a piece must have the same edges in the same order. A size whose outline has more or fewer corners than "
    "the one that is drafted is left out.",
    grade=Severity.WARNING,
)
MATCH_LABEL = inference(
    "seam",
    "A match label became a seam",
    "One to three letters or figures beside an edge are a match label. Edges with the same label are sewn together.",
)
LABEL_ALONE = inference(
    "label-alone",
    "A match label stands only once",
    "A match label that stands beside one edge only is sewn to nothing. If the edge is sewn to its own mirror image, state "
    "the seam in the open format.",
)
LABELS_UNANSWERED = inference(
    "labels-unanswered",
    "No match label stands beside two edges",
    "Match labels are written to say what is sewn to what. Where each stands beside one edge only, no seam is known at all, and "
    "nothing can be said of whether the pieces sew together.",
    grade=Severity.WARNING,
)
LABEL_UNCLEAR = inference(
    "label-unclear",
    "It is not clear what a match label means",
    "A match label must stand clearly nearer to its edge than to any other; a figure that stands on many pieces is rather a "
    "count than a label.",
)
SIDES_UNKNOWN = inference(
    "sides-unknown",
    "It is not known which edges of a label lie on which side of its seam",
    "A label on the edges of three or more pieces is a seam with two sides. They are told apart by the seams that join the "
    "edges of one side to each other; where those allow none or several ways, the label must say “side 1” or “side 2”.",
    grade=Severity.WARNING,
)
DIRECTION = inference(
    "direction-unknown",
    "It is not known which ends of a seam meet",
    "The direction in which a seam is walked follows from the hands of the pieces and from the joints of other seams. Where "
    "both directions are possible, the one whose notches meet better is taken.",
)
RING_START = inference(
    "ring-start",
    "A ring may start anywhere",
    "Where both sides of a seam are rings, nothing tells which of several corners meet at the start: the first in the "
    "outline's order is taken. A notch on both sides would tell.",
)
RECONCILED = inference(
    "drawn-anew",
    "A piece was changed in the drawing since",
    "The document that came along with the drawing draws this piece otherwise. The drawing holds; what the document states "
    "beside shapes is kept where the names still fit.",
)
NO_LONGER_FITS = inference(
    "no-longer-fits",
    "Something the document states no longer fits the drawing",
    "A seam, notch or other statement of the document that came along, or of the drawing itself, names a piece, an edge or a "
    "node that is no longer drawn so, and was left out.",
    grade=Severity.WARNING,
)
NO_PIECE = inference(
    "no-piece",
    "Nothing in the drawing was taken for a piece",
    "A piece is what a closed line encloses. Where no line closes, or everything that does is a frame, a dimension or "
    "lettering, nothing can be measured.",
    grade=Severity.WARNING,
)
DOCUMENT_UNREADABLE = inference(
    "document-unreadable",
    "The document that came along with the drawing cannot be read",
    "A drawing that was written from a pattern carries the pattern's document. If that is damaged, the drawing alone is read: "
    "seams, joins and notions are gone.",
    grade=Severity.WARNING,
)
DOCUMENT_GONE = inference(
    "document-gone",
    "The document of a drawing is gone",
    "A drawing that was written from a pattern carries the pattern's document in its metadata. Some programs leave that out when "
    "they save a drawing. What is drawn and named is read all the same, and so is what letters, lines and cut orders state of "
    "seams, openings, edges and materials; notions, body measures, tolerances, the order of sewing and notes are gone.",
    grade=Severity.WARNING,
)
COPIES_ONLY = inference(
    "copies-only",
    "A piece is drawn in further copies only",
    "Where each piece is drawn as many times as it is cut, the first copy as drawn is the piece, and all others say that they are "
    "copies of it. Without that first one the piece itself is not there to be read.",
    grade=Severity.WARNING,
)
