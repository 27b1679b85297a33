"""What is written and drawn on shapes: names, edges, notches, darts, grain, folds, cut orders."""

from notchwork.recognise.words.pattern import PieceRead as PieceRead
from notchwork.recognise.words.pattern import WordsRead as WordsRead
from notchwork.recognise.words.pattern import read_words as read_words
