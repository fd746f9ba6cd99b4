# Starts turbomath from this folder. It needs Python {either}, 64 bit, and no network.
$start = Join-Path $PSScriptRoot 'start.py'
if (Get-Command py -ErrorAction SilentlyContinue) {
    foreach ($version in '{pythons}'.Split(' ')) {
        & py "-$version" -c 'pass' 2>$null
        if ($LASTEXITCODE -eq 0) {
            & py "-$version" "$start" @args
            exit $LASTEXITCODE
        }
    }
}
if (Get-Command python -ErrorAction SilentlyContinue) {
    & python "$start" @args
    exit $LASTEXITCODE
}
Write-Host 'This needs Python {either}, 64 bit. Install it, then start this again.'
exit 1
