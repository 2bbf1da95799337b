#include "tests/exporters/step/step_file.h"

#include <unistd.h>

#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_PrinterOStream.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <TDF_ChildIterator.hxx>
#include <TDF_LabelSequence.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <filesystem>
#include <fstream>
#include <map>

#include "geometry/occt/kernel_shape.h"

namespace halfhard {
namespace {

std::string name_of(const TDF_Label& label) {
  Handle(TDataStd_Name) name;
  if (!label.FindAttribute(TDataStd_Name::GetID(), name)) return "";
  std::vector<char> utf8(name->Get().LengthOfCString() + 1);
  char* text = utf8.data();
  name->Get().ToUTF8CString(text);
  return utf8.data();
}

ReadPart part_of(const TDF_Label& label, const TDF_Label& product, const Handle(XCAFDoc_ColorTool) & colours) {
  ReadPart part{name_of(label), name_of(product), solid_of(XCAFDoc_ShapeTool::GetShape(label))};
  part.shape = product.Tag();
  Quantity_Color colour;
  if (colours->GetColor(product, XCAFDoc_ColorSurf, colour) || colours->GetColor(product, XCAFDoc_ColorGen, colour)) {
    part.red = colour.Red(), part.green = colour.Green(), part.blue = colour.Blue();
  }
  for (TDF_ChildIterator at(product); at.More() && part.red < 0; at.Next()) {
    if (!colours->GetColor(at.Value(), XCAFDoc_ColorSurf, colour)) continue;
    part.red = colour.Red(), part.green = colour.Green(), part.blue = colour.Blue();
  }
  return part;
}

}  // namespace

ReadFile read_back(const std::string& step_text) {
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_PrinterOStream));
  const auto path =
      std::filesystem::temp_directory_path() / ("halfhard-read-back-" + std::to_string(getpid()) + ".step");
  std::ofstream(path, std::ios::binary) << step_text;
  Handle(TDocStd_Document) document;
  XCAFApp_Application::GetApplication()->NewDocument("BinXCAF", document);
  STEPCAFControl_Reader reader;
  reader.SetColorMode(true);
  reader.SetNameMode(true);
  const auto status = reader.ReadFile(path.c_str());
  std::filesystem::remove(path);
  if (status != IFSelect_RetDone) throw std::runtime_error("not read");
  if (!reader.Transfer(document)) throw std::runtime_error("not transferred");
  const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document->Main());
  const auto colours = XCAFDoc_DocumentTool::ColorTool(document->Main());
  TDF_LabelSequence roots;
  shapes->GetFreeShapes(roots);
  ReadFile file;
  for (const TDF_Label& root : roots) {
    if (!XCAFDoc_ShapeTool::IsAssembly(root)) {
      file.parts.push_back(part_of(root, root, colours));
      continue;
    }
    file.assembly_name = name_of(root);
    TDF_LabelSequence components;
    XCAFDoc_ShapeTool::GetComponents(root, components);
    for (const TDF_Label& component : components) {
      TDF_Label product;
      XCAFDoc_ShapeTool::GetReferredShape(component, product);
      file.parts.push_back(part_of(component, product, colours));
    }
  }
  return file;
}

}  // namespace halfhard
