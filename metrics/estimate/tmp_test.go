package estimate
import ("testing";"fmt";"math")
type res struct{mean,sd,pb float64; lo,hi float64}
func full(y,s []float64, prior func(tau float64) float64) []res{
 k:=len(y); m:=Moments{}; var smax float64
 for i:=range y {m.Add(y[i]); smax=max(smax,s[i])}
 top:=0.0; if k>1 {top=4*max(m.StandardDeviation(), smax)}
 const G=200
 out:=make([]res,k); m2:=make([]float64,k); var W float64; best:=math.Inf(-1)
 lw:=make([]float64,G)
 for g:=range G { tau:=top*(float64(g)+.5)/G; mu,w:=weightedMean(y,s,tau*tau); l:=-.5*math.Log(w)
  for i:=range y { v:=s[i]*s[i]+tau*tau; l-=.5*math.Log(v)+.5*(y[i]-mu)*(y[i]-mu)/v }
  l+=math.Log(prior(tau)); lw[g]=l; best=max(best,l)}
 for g:=range G { tau:=top*(float64(g)+.5)/G; mu,cw:=weightedMean(y,s,tau*tau); w:=math.Exp(lw[g]-best); W+=w
  for i:=range y { v:=s[i]*s[i]; B:=v/(v+tau*tau); mm:=y[i]+B*(mu-y[i]); vv:=(1-B)*v+B*B/cw
   out[i].mean+=w*mm; m2[i]+=w*(vv+mm*mm); out[i].pb+=w*normalBelow(-mm/math.Sqrt(vv))}}
 for i:=range out {out[i].mean/=W; out[i].sd=math.Sqrt(m2[i]/W-out[i].mean*out[i].mean); out[i].pb/=W}
 return out}
func morris(y,s []float64) []res{
 k:=float64(len(y)); A:=betweenVariance(y,s); mu,cw:=weightedMean(y,s,A); var out []res
 var wv float64
 for i:=range y { v:=s[i]*s[i]; wv+=v/(v+A)/cw }
 for i:=range y { v:=s[i]*s[i]; B:=(k-3)/(k-1)*v/(v+A); vi:=2/(k-3)*B*B*(wv+A)/(v+A)
  mm:=y[i]+B*(mu-y[i]); vv:=(1-(k-1)/k*B)*v+vi*(y[i]-mu)*(y[i]-mu)
  out=append(out,res{mean:mm,sd:math.Sqrt(vv),pb:normalBelow(-mm/math.Sqrt(vv))})}
 return out}
func TestTmp(t *testing.T){
 gen:=func(seed uint64,cells int,tau float64)(truth,y,s []float64){ r:=newRandom(seed)
  for range cells { m:=-.05+tau*r.NormFloat64(); se:=.04+.16*r.Float64(); truth=append(truth,m); s=append(s,se); y=append(y,m+se*r.NormFloat64())}
  return}
 flat:=func(float64)float64{return 1}
 for _,tau:=range []float64{0.02,.1,.3}{
 for _,k:=range []int{2,3,5,8,20}{
  methods:=map[string]func(y,s []float64)[]res{
   "a DL":func(y,s []float64)[]res{var o []res; for _,c:=range Shrink(y,s).Cells {o=append(o,res{mean:c.Mean,sd:c.SD,pb:c.ChanceBelowZero})};return o},
   "c flat":func(y,s []float64)[]res{return full(y,s,flat)},
  }
  if k>3 {methods["b morris"]=morris}
  for _,name:=range []string{"a DL","b morris","c flat"}{ f:=methods[name]; if f==nil{continue}
   var n,held,cl,bl,cl7,bl7,se,raw float64
   for seed:=range uint64(3000){ tr,y,s:=gen(seed,k,tau)
    for i,c:=range f(y,s){ n++; if math.Abs(c.mean-tr[i])<=1.645*c.sd{held++}; se+=(c.mean-tr[i])*(c.mean-tr[i]); raw+=(y[i]-tr[i])*(y[i]-tr[i])
     if c.pb>.9 {cl++; if tr[i]<0{bl++}}; if c.pb>.6&&c.pb<.8 {cl7++; if tr[i]<0 {bl7++}} } }
   fmt.Printf("tau %.2f k=%2d %-8s held %.3f  mse %.2f  >.9: %.3f of %.0f%%  .6-.8: %.3f\n",tau,k,name,held/n,se/raw,bl/cl,100*cl/n,bl7/cl7)
  }}}
 for _,c:=range full([]float64{28, 8, -3, 7, -1, 1, 18, 12}, []float64{15, 10, 16, 11, 9, 11, 10, 18},flat){fmt.Printf("%.1f %.1f %.3f\n",c.mean,c.sd,c.pb)}
}
