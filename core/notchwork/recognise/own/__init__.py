"""What drawings of this program's own state in the words of the open format, beside what they show."""

from notchwork.recognise.own.fitting import with_own_words as with_own_words
from notchwork.recognise.own.nodes import with_nodes as with_nodes
from notchwork.recognise.own.stated import Stated as Stated
from notchwork.recognise.own.stated import stated_in as stated_in
from notchwork.recognise.own.stated import without_signs as without_signs
