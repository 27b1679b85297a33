"""PDF: sheets on paper at life size, each piece drawn once and placed on every page that shows it."""
