"""What a file says of itself: title, author, licence, language, and that it must not be scaled."""

from __future__ import annotations

from pikepdf import Dictionary, Name, Pdf, Stream, String

from notchwork.drawing import Drawing
from notchwork.drawing.xml import words
from notchwork_plugins.pdf.fonts.scripts import plain

PRODUCER = "Notchwork"

_PACKET = """\
<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">
<dc:format>application/pdf</dc:format>
{said}
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="w"?>
"""


def describe(pdf: Pdf, drawing: Drawing) -> None:
    """Fill in the file's information, as a dictionary (ISO 32000-1, 14.3.3) and as XMP (ISO 16684-1), without dates."""
    about, root = drawing.about, pdf.Root
    title, author, rights, description = map(
        plain, (drawing.title, about.author, about.license, about.description)
    )
    info = {"/Title": title, "/Author": author, "/Subject": description, "/Producer": PRODUCER}
    for key, value in info.items():
        if value:
            pdf.docinfo[key] = String(value)
    said = [f"<pdf:Producer>{PRODUCER}</pdf:Producer>"]
    for tag, value in (("title", title), ("description", description), ("rights", rights)):
        if value:
            said.append(
                f'<dc:{tag}><rdf:Alt><rdf:li xml:lang="x-default">{words(value)}</rdf:li></rdf:Alt></dc:{tag}>'
            )
    if author:
        said.append(f"<dc:creator><rdf:Seq><rdf:li>{words(author)}</rdf:li></rdf:Seq></dc:creator>")
    packet = _PACKET.format(said="\n".join(said))
    root.Metadata = Stream(pdf, packet.encode("utf-8"))
    root.Metadata.Type, root.Metadata.Subtype = Name.Metadata, Name.XML
    # Our own words are English; what its maker wrote may be in any language.
    root.Lang = String("en")
    root.ViewerPreferences = Dictionary(PrintScaling=Name("/None"), DisplayDocTitle=True)
