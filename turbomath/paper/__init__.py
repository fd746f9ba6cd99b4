"""What prints: pages from templates, the print style, the cautions block, tables, equations as MathML."""
