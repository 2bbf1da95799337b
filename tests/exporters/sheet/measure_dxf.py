"""Audits a DXF file with ezdxf and prints every dimension as ezdxf measures it: kind, measured * DIMLFAC, text.

Prints "audit ERRORS FIXES" first; ends with status 1 where the audit found anything.
"""
import sys

import ezdxf
from ezdxf import recover


def main(path):
    doc = ezdxf.readfile(path)
    auditor = doc.audit()
    _, recovered = recover.readfile(path)
    errors = auditor.errors + recovered.errors
    fixes = auditor.fixes + recovered.fixes
    print("audit", len(errors), len(fixes))
    for finding in errors + fixes:
        print(finding.code, finding.message)
    print("units", doc.header["$INSUNITS"], doc.header["$MEASUREMENT"], doc.header["$ACADVER"], doc.encoding)
    print("layers", " ".join(sorted(layer.dxf.name for layer in doc.layers)))
    for dimension in doc.modelspace().query("DIMENSION"):
        assert dimension.dxf.geometry in doc.blocks, "dimension without its block"
        assert len(doc.blocks.get(dimension.dxf.geometry)) > 0, "empty dimension block"
        measured = dimension.get_measurement()
        factor = 1.0
        if dimension.dimtype not in (2, 5):
            factor = dimension.get_dim_style().dxf.dimlfac
        print("dimension", dimension.dimtype, repr(measured), repr(factor), dimension.dxf.text, sep="\t")
    return 1 if errors or fixes else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
