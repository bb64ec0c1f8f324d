using Halfpin.Web.Api.Description;
using Halfpin.Workbench.Jobs;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Halfpin.Web.Api;

/// <summary>The HTTP API: the services of the command line for programs of this machine.</summary>
internal static class HttpApi
{
    public static void Add(IServiceCollection services)
    {
        services.AddSingleton<JobList>().AddSingleton<ApiServices>();
        ApiDocument.Add(services);
    }

    public static void Map(IEndpointRouteBuilder routes)
    {
        ReportOperations.Map(routes);
        WorkOperations.Map(routes);
        JobOperations.Map(routes);
        CatalogueOperations.Map(routes);
        ApiDocument.Map(routes);
    }
}
