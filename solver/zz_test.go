package solver
import ("testing";"context";"fmt";"math")
func TestZZ(t *testing.T){ for _,ref:=range ladderReference[:3]{ n:=ref.n; s:=NewSoaker(newLadder(n,160,.25e-3)); for e:=-2;e<=13;e++{ tol:=math.Pow(10,-float64(e)/4)
 r,err:=s.Run(context.Background(),SoakOptions{Tol:tol,Start:uniform(n,ladderAir),Until:3600,Times:ladderTimes})
 if err!=nil {t.Fatal(err)}
 w:=0.0; we:=0.0
 for c,i:=range cells(n){ for k,v:=range ref.soak[c]{ d:=math.Abs(r.States[k][i]-v); w=max(w,d); if k==4 {we=max(we,d)}}}
 fmt.Printf("%d tol %.3g err %.2g end %.2g steps %d rej %d\n",n,tol,w,we,r.Stats.Steps,r.Stats.Rejected)}}}
