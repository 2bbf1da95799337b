#include "geometry/occt/body_solid.h"

#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_Sewing.hxx>
#include <BRepLib.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRep_Builder.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Solid.hxx>
#include <gp_Ax2.hxx>

#include "geometry/occt/kernel_shape.h"

namespace halfhard {

Solid box_solid(const Box& box) {
  return translating_failures("solid of a box", [&] {
    // The kernel's box stands on a right-handed frame; a left-handed one is the same box with one axis turned round.
    const Vec3 x = box.axes.col(0);
    const Vec3 z = box.axes.col(2);
    const Vec3 y = z.cross(x);
    const Vec3 corner = box.centre - box.half.x() * x - box.half.y() * y - box.half.z() * z;
    return solid_of(BRepPrimAPI_MakeBox(gp_Ax2(kernel_point(corner), kernel_direction(z), kernel_direction(x)),
                                        2 * box.half.x(), 2 * box.half.y(), 2 * box.half.z())
                        .Solid());
  });
}

Solid cylinder_solid(const Cylinder& cylinder) {
  return translating_failures("solid of a cylinder", [&] {
    const Vec3 along = cylinder.to - cylinder.from;
    const gp_Ax2 axes(kernel_point(cylinder.from), kernel_direction(along.normalized()));
    return solid_of(BRepPrimAPI_MakeCylinder(axes, cylinder.radius, along.norm()).Solid());
  });
}

Solid triangle_solid(const TriangleBody& body) {
  return translating_failures("solid of triangles", [&] {
    BRepBuilderAPI_Sewing sewing(1e-6);
    for (const auto& corners : body.triangles) {
      BRepBuilderAPI_MakePolygon outline(kernel_point(body.vertices[corners[0]]),
                                         kernel_point(body.vertices[corners[1]]),
                                         kernel_point(body.vertices[corners[2]]), true);
      sewing.Add(BRepBuilderAPI_MakeFace(outline.Wire(), true).Face());
    }
    sewing.Perform();
    BRep_Builder builder;
    TopoDS_Solid solid;
    builder.MakeSolid(solid);
    int shells = 0;
    for (TopExp_Explorer at(sewing.SewedShape(), TopAbs_SHELL); at.More(); at.Next(), ++shells) {
      builder.Add(solid, TopoDS::Shell(at.Current()));
    }
    if (shells == 0) throw Trouble("solid of triangles: they do not close");
    BRepLib::OrientClosedSolid(solid);
    return solid_of(solid);
  });
}

}  // namespace halfhard
