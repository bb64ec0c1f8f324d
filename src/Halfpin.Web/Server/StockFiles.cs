using Halfpin.Storage.Stocks;
using Halfpin.Workbench.Documents;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Halfpin.Web.Server;

/// <summary>The stock of a work as files to save.</summary>
internal static class StockFiles
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/works/{id}/stock/file", (string id, WorkspaceList works) => works.Find(id)?.StockFile is StockFile file
            ? Results.File(file.Bytes, file.FileName.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) ? "text/csv; charset=utf-8" : "application/json", file.FileName) : Results.NotFound());
        routes.MapGet("/works/{id}/stock.json", (string id, WorkspaceList works) => works.Find(id)?.Stock is Domain.Stocks.Stock stock
            ? Results.File(StockWriter.Write(stock), "application/json", "stock.json") : Results.NotFound());
    }
}
