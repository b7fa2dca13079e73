"""Clip closed surface, then mass properties, with VTK, on the mesh and planes that our own side wrote."""
import sys
import time

import vtk

folder = sys.argv[1]
points, cells = vtk.vtkPoints(), vtk.vtkCellArray()
points.SetDataTypeToDouble()
for line in open(f"{folder}/mesh.txt"):
    kind, *numbers = line.split()
    if kind == "v":
        points.InsertNextPoint(*map(float, numbers))
    else:
        cells.InsertNextCell(3, list(map(int, numbers)))
surface = vtk.vtkPolyData()
surface.SetPoints(points)
surface.SetPolys(cells)


def wet_volume(x, y, z, d):
    plane = vtk.vtkPlane()
    plane.SetNormal(-x, -y, -z)
    plane.SetOrigin(x * d, y * d, z * d)
    planes = vtk.vtkPlaneCollection()
    planes.AddItem(plane)
    clip = vtk.vtkClipClosedSurface()
    clip.SetInputData(surface)
    clip.SetClippingPlanes(planes)
    triangles = vtk.vtkTriangleFilter()
    triangles.SetInputConnection(clip.GetOutputPort())
    mass = vtk.vtkMassProperties()
    mass.SetInputConnection(triangles.GetOutputPort())
    return mass.GetVolume()


for attitude in ["near level", "any", "near perpendicular", "30-60 degrees"]:
    lines = open(f"{folder}/planes-{attitude.replace(' ', '-')}.txt").read().split("\n")
    planes = [tuple(map(float, line.split())) for line in lines if line][:30]
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        for plane in planes:
            wet_volume(*plane)
        best = min(best, (time.perf_counter() - start) * 1e6 / len(planes))
    print(f"vtk\t{attitude}\t{best:.1f}\t{wet_volume(*planes[0]):.1f}")
